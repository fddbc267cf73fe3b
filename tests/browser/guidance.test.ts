import axe from 'axe-core';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  chooseInMenu,
  freshNumbers,
  launchBrowser,
  openPage,
  openPanel,
  settled,
} from './support/open-page.ts';

/** Seven steps, and a page that is opened twice, on a busy machine. */
const PATIENCE_ms = 180_000;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const SCHEMES = [
  ['night', 'For the night'],
  ['day', 'For the day'],
] as const;

async function showScheme(page: Page, scheme: string, words: string): Promise<void> {
  await page.getByRole('button', { name: /^Units/ }).click();
  await page.getByRole('menuitemradio', { name: words }).click();
  await page.locator(`:root[data-scheme=${scheme}]`).waitFor();
}

/** What the checker finds within a part of the page. */
async function faultsIn(page: Page, part: string): Promise<string[]> {
  await settled(page);
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(
    (within) => (window as unknown as { axe: typeof axe }).axe.run(within),
    part,
  );
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`,
  );
}

let page: Page;
let context: BrowserContext;
let complaints: string[];
afterEach(() => {
  expect(complaints).toEqual([]);
});

/** Each test has a page of its own: a first visit is one only once. */
describe('the tour', { timeout: PATIENCE_ms }, () => {
  beforeEach(async () => {
    ({ page, context, complaints } = await openPage(browser, { tour: 'first visit' }));
  });
  afterEach(() => context.close());

  const TITLES = [
    'The frame',
    'The plan',
    'The stop rule',
    'What is chosen',
    'Setups',
    'Glints',
    'Yours to keep',
  ];
  const words = (name: string): Locator => page.getByRole('dialog', { name });

  it('shows a first visitor round by keys alone, once, and again when asked', async () => {
    for (const [i, title] of TITLES.entries()) {
      await words(`${title} ${i + 1} of ${TITLES.length}`).waitFor();
      expect(await page.locator('[data-toured]').count()).toBe(1);
      expect(await page.locator('[data-toured]').isVisible()).toBe(true);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await page.locator('[data-toured]').count()).toBe(0);

    await page.reload();
    await freshNumbers(page);
    await settled(page);
    expect(await page.getByRole('dialog').count()).toBe(0);
    await page.keyboard.press('Control+k');
    await page.keyboard.type('show me round');
    await page.keyboard.press('Enter');
    await words('The frame').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('leaves the page in use: what it suggests is done while it is there, and Escape ends it from anywhere', async () => {
    await page.getByRole('button', { name: 'Next' }).click();
    await words('The plan').waitFor();
    const rim = page.locator('.plan-svg').getByRole('button', { name: 'Small rim, lamp' });
    const before = await rim.getAttribute('aria-label');
    const plate = (await rim.locator('.plan-plate').boundingBox())!;
    const [x, y] = [plate.x + plate.width / 2, plate.y + plate.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 30, y + 15, { steps: 4 });
    await settled(page);
    await page.mouse.up();
    expect(await rim.getAttribute('aria-label')).not.toBe(before);
    expect(await words('The plan').isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('has no fault that a checker finds, by night and by day', async () => {
    const faults: string[] = await faultsIn(page, '.tour');
    await page.keyboard.press('Escape');
    await showScheme(page, 'day', 'For the day');
    await chooseInMenu(page, 'Show me round');
    await words('The frame').waitFor();
    faults.push(...(await faultsIn(page, '.tour')));
    expect(faults).toEqual([]);
  });
});

describe('the sheet of keys', { timeout: PATIENCE_ms }, () => {
  beforeAll(async () => {
    ({ page, context, complaints } = await openPage(browser));
  });
  afterAll(() => context.close());

  const sheet = () => page.getByRole('dialog', { name: 'Keys' });

  it('has every key that the list of commands has, and more', async () => {
    await page.keyboard.press('Control+k');
    const listed = await page.locator('.command-list kbd').allTextContents();
    expect(listed.length).toBeGreaterThan(10);
    await page.keyboard.press('Escape');
    await page.keyboard.press('?');
    await sheet().waitFor();
    const onSheet = await sheet().locator('kbd').allTextContents();
    for (const keys of listed) expect(onSheet).toContain(keys);
    expect(onSheet.length).toBeGreaterThan(listed.length);
    expect(onSheet).toContain('Ctrl+K');
    await page.keyboard.press('Escape');
    await sheet().waitFor({ state: 'detached' });
    await chooseInMenu(page, 'Keys');
    await sheet().getByRole('button', { name: 'Close' }).click();
    await sheet().waitFor({ state: 'detached' });
  });

  it('does not open while words are typed', async () => {
    await openPanel(page, 'Build');
    const search = page.getByRole('combobox', { name: 'Things to add' });
    await search.focus();
    await page.keyboard.type('what?');
    expect(await search.inputValue()).toBe('what?');
    expect(await sheet().count()).toBe(0);
  });

  it.each(SCHEMES)('has no fault that a checker finds, %s', async (scheme, words) => {
    await showScheme(page, scheme, words);
    await page.keyboard.press('?');
    await sheet().waitFor();
    expect(await faultsIn(page, '.key-sheet')).toEqual([]);
    await page.keyboard.press('Escape');
    await sheet().waitFor({ state: 'detached' });
  });
});
