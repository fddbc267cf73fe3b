import { readFile } from 'node:fs/promises';
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core';
import { inject } from 'vitest';

export { dropFiles } from './drop-files.ts';

// Declares what the view offers to tests on the window.
import type {} from '../../../src/editor/view/screen-place.tsx';

/**
 * Software drawing, the same on every machine, and nothing that would go out to a network. The page itself is drawn by the
 * processor, not through the software driver that WebGL gets: that would take five times as long.
 */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--enable-unsafe-swiftshader',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Software drawing on a busy machine takes seconds; more than this is a fault. */
const PATIENCE_ms = 40_000;

export function launchBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: inject('browserPath'), args: FLAGS });
}

export interface OpenedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the page complained about, as it does. */
  readonly complaints: string[];
}

interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  /** A screen that is touched. */
  readonly touch?: boolean;
  /** Run in the page before its own code. */
  readonly before?: () => void;
  /** Whether the frame is drawn: in software that takes all there is. Held from the beginning otherwise. */
  readonly frame?: 'held' | 'drawn';
  /** Whether the visitor has been shown round before. */
  readonly tour?: 'seen' | 'first visit';
}

/** A fresh visitor with the page open and its first numbers on it. */
export async function openPage(browser: Browser, options: PageOptions = {}): Promise<OpenedPage> {
  const { width = 1280, height = 800, touch = false, before, frame = 'held', tour = 'seen' } = options;
  const context = await browser.newContext({ viewport: { width, height }, hasTouch: touch });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE_ms);
  if (frame === 'held') await page.addInitScript(holdFrame);
  if (tour === 'seen') await page.addInitScript(leaveTourOut);
  if (before) await page.addInitScript(before);
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(inject('pageUrl'));
  await freshNumbers(page);
  return { page, context, complaints };
}

/** Run in the page before its own code: as if a person had held the frame on an earlier visit. */
export function holdFrame(): void {
  localStorage.setItem('keyfall.frame-held', 'true');
}

/** Run in the page before its own code: as if a person had been shown round on an earlier visit. */
export function leaveTourOut(): void {
  localStorage.setItem('keyfall.tour', 'seen');
}

/** Waits until the numbers on the page are those of the scene on the page. */
export async function freshNumbers(page: Page): Promise<void> {
  await page.locator('.stop-rule[aria-busy=false]').waitFor();
}

/** Shows one of the panels at the side. */
export async function openPanel(page: Page, name: string): Promise<Locator> {
  const tab = page.getByRole('tablist', { name: 'Panels' }).getByRole('tab', { name, exact: true });
  if ((await tab.getAttribute('aria-selected')) !== 'true') await tab.click();
  return page.locator('.side[data-state=active]');
}

/** Opens the view in three dimensions and waits until it stands and can be taken hold of. */
export async function drawnView(page: Page): Promise<Locator> {
  await page.getByRole('tab', { name: '3D', exact: true }).click();
  const canvas = page.locator('.view canvas');
  await canvas.waitFor();
  await page.waitForFunction(() => window.keyfallPlaceOf !== undefined);
  await settled(page);
  return canvas;
}

/** Two frames: whatever was asked for is on the screen. */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/** The columns of the table of readings. */
export const FIELDS = ['name', 'receptor', 'reading', 'stops', 'fNumber', 'plusMinus', 'colour'] as const;

/** The table of readings as it stands on the page: a line of texts a mark. */
export async function readingsOn(page: Page): Promise<string[][]> {
  await openPanel(page, 'Readings');
  await freshNumbers(page);
  return page
    .locator('tr[data-mark]')
    .evaluateAll(
      (rows, fields) =>
        rows.map((row) =>
          fields.map((field) => row.querySelector(`[data-field=${field}]`)?.textContent ?? '?'),
        ),
      FIELDS,
    );
}

/** One figure of one mark. */
export function figureOf(page: Page, mark: string, field: (typeof FIELDS)[number]): Locator {
  return page.locator(`tr[data-mark="${mark}"] [data-field=${field}]`);
}

/** What each lamp puts on the chosen mark, as it stands on the page: name of the lamp by id, reading, stops. */
export async function partsOn(page: Page): Promise<string[][]> {
  await openPanel(page, 'Readings');
  await freshNumbers(page);
  return page
    .locator('[data-testid=lamp-parts] tr[data-lamp]')
    .evaluateAll((rows) =>
      rows.map((row) => [
        row.getAttribute('data-lamp') ?? '?',
        row.querySelector('[data-field=reading]')?.textContent ?? '?',
        row.querySelector('[data-field=stops]')?.textContent ?? '',
      ]),
    );
}

/** Chooses from the menu of the document. */
export async function chooseInMenu(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name }).click();
}

/** Run in the page before its own code: it then saves by download, as in browsers without access to files. */
export function saveAsDownload(): void {
  Object.assign(window, { showSaveFilePicker: undefined });
}

/** What the page saves, in a page that was opened with `saveAsDownload`. */
export async function savedFile(page: Page): Promise<{ readonly name: string; readonly text: string }> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Control+s')]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') };
}
