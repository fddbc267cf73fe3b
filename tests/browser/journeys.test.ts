import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPng } from '../paperwork/picture-files/png-reader.ts';
import { keyfall, readingLines } from './support/command-line.ts';
import {
  freshNumbers,
  launchBrowser,
  openPage,
  openPanel,
  saveAsDownload,
  savedFile,
} from './support/open-page.ts';

/** The slowest answers, and the graphics program in software, take their time on a busy machine. */
const PATIENCE_ms = 120_000;
const JOURNEY_ms = 300_000;

let browser: Browser;
let folder: string;
beforeAll(async () => {
  browser = await launchBrowser();
  folder = await mkdtemp(join(tmpdir(), 'keyfall-journey-'));
});
afterAll(async () => {
  await browser.close();
  await rm(folder, { recursive: true });
});

/** What `keyfall …` says of a scene as the page saved it. */
async function saidOf(scene: string, command: string, ...options: string[]): Promise<string> {
  const path = join(folder, 'saved.json');
  await writeFile(path, scene);
  return keyfall(command, path, ...options);
}

/** Opens a panel of answers and waits for its last word on the scene as it is. */
async function answerOn(page: Page, name: string): Promise<Locator> {
  await openPanel(page, name);
  const panel = page.getByRole('region', { name, exact: true });
  await panel.and(page.locator('[data-state=fresh]')).waitFor({ timeout: PATIENCE_ms });
  return panel;
}

async function typed(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole('textbox', { name: label, exact: true });
  await field.fill(text);
  await field.press('Enter');
}

describe('the backlight is raised until its glint leaves the frame', () => {
  it('by a figure typed or by the cure that is offered, as the command line has it, and all of it back', {
    timeout: JOURNEY_ms,
  }, async () => {
    const { page, context, complaints } = await openPage(browser, { before: saveAsDownload });
    const asOpened = await savedFile(page);
    await page.getByRole('combobox', { name: 'Camera' }).selectOption({ label: 'B, close on Ada' });

    const glints = await answerOn(page, 'Glints');
    /** Of the backlight in the quay. */
    const card = glints.getByRole('listitem').filter({ hasText: 'Backlight mirrors in Quay' });
    expect(await glints.locator('.verdict').textContent()).toBe('Backlight mirrors white in this frame.');
    await card.getByText('in frame', { exact: true }).waitFor();

    await card.getByRole('button', { name: 'Backlight', exact: true }).click();
    await openPanel(page, 'Chosen');
    await typed(page, 'Height, metres', '3.5 m');
    await answerOn(page, 'Glints');
    await card.getByText('out of frame', { exact: true }).waitFor();
    expect(await glints.locator('.verdict').textContent()).not.toContain('Backlight');

    const raised = (await savedFile(page)).text;
    const report = JSON.parse(await saidOf(raised, 'glints', '--camera', 'b', '--json'));
    const ofBacklight = report.glints.filter(
      ({ lamp, solid }: { lamp: string; solid: string }) => lamp === 'back' && solid === 'quay',
    );
    expect(ofBacklight.length).toBeGreaterThan(0);
    for (const glint of ofBacklight) expect(glint.inFrame).toBe(false);
    const lines = (await saidOf(raised, 'glints', '--camera', 'b')).split('\n');
    expect(await glints.locator('.card > p').allTextContents()).toEqual(
      lines.filter((line) => line.startsWith('• ')).map((line) => line.slice(2)),
    );

    await page.keyboard.press('Control+z');
    expect((await savedFile(page)).text).toBe(asOpened.text);

    await answerOn(page, 'Glints');
    await card.getByRole('button', { name: /^Try it: stand up 0\.5 m/ }).click();
    await glints.locator('.verdict').filter({ hasNotText: 'Backlight' }).waitFor();
    await answerOn(page, 'Glints');
    expect(await glints.locator('.verdict').textContent()).not.toContain('Backlight');
    await page.keyboard.press('Control+z');
    expect((await savedFile(page)).text).toBe(asOpened.text);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

/** A want is met, says the balance, when it is within this. */
const MET_stops = 0.1;

describe('key, rim and fill are brought to the stops that are wanted', () => {
  it('by flags on the stop rule, levels that are proposed and taken, and needles that get there', {
    timeout: JOURNEY_ms,
  }, async () => {
    const { page, context, complaints } = await openPage(browser, {
      width: 1440,
      height: 900,
      before: saveAsDownload,
    });
    const rule = page.getByRole('region', { name: 'Stop rule' });
    const needle = (name: string) => rule.getByRole('option', { name: new RegExp(`${name} `) });
    const figures = async (name: string) =>
      ((await needle(name).locator('.needle-figures').textContent()) ?? '').replace(/\s+/g, ' ');
    const flag = (name: string) => rule.getByRole('slider', { name: `Wanted at ${name}` });

    // Ada's face is the key's: its flag is dragged to the camera's zero.
    await needle('Ada, face').click();
    const cloth = (await flag('Ada, face').locator('.flag-cloth').boundingBox())!;
    const zero = (await rule.locator('text.rule-zero-word').boundingBox())!;
    const stem = (await flag('Ada, face').boundingBox())!;
    await page.mouse.move(cloth.x + 12, cloth.y + cloth.height / 2);
    await page.mouse.down();
    await page.mouse.move(zero.x + zero.width / 2 + 40, stem.y, { steps: 3 });
    await page.mouse.move(zero.x + zero.width / 2, stem.y, { steps: 3 });
    await page.mouse.up();
    expect(await flag('Ada, face').getAttribute('aria-valuetext')).toBe('0 stops');

    // Ben's rim and the quay between the shafts, which the fill alone reaches, by keys.
    for (const [name, wanted, key] of [
      ['Ben, rim', '+1 stop', 'ArrowLeft'],
      ['Quay between shafts', '−2 stops', 'ArrowLeft'],
    ] as const) {
      await needle(name).click();
      for (let press = 0; press < 9; press++) {
        if ((await flag(name).getAttribute('aria-valuetext')) === wanted) break;
        await flag(name).press(key);
      }
      expect(await flag(name).getAttribute('aria-valuetext')).toBe(wanted);
    }

    await rule.getByRole('button', { name: 'Find levels' }).click();
    await rule.getByText('These levels do it:').waitFor({ timeout: PATIENCE_ms });
    await rule.getByRole('button', { name: 'Take these levels' }).click();
    await freshNumbers(page);
    expect(await figures('Ada, face')).toMatch(/^0 /);
    expect(await figures('Ben, rim')).toMatch(/^\+1 /);
    expect(await figures('Quay between shafts')).toMatch(/^−2 /);

    const { text } = await savedFile(page);
    const { marks } = JSON.parse(await saidOf(text, 'meter', '--json'));
    const stopsAt = (id: string) => marks.find((mark: { id: string }) => mark.id === id).stops;
    for (const [id, wanted] of [
      ['ada-face', 0],
      ['ben-rim', 1],
      ['quay-mid', -2],
    ] as const)
      expect(Math.abs(stopsAt(id) - wanted)).toBeLessThanOrEqual(MET_stops);
    const lines = readingLines(await saidOf(text, 'meter'));
    expect(lines.length).toBe(7);
    for (const [name, , reading, stops] of lines) {
      await needle(name!).scrollIntoViewIfNeeded();
      expect(await figures(name!)).toBe(`${stops} ${reading} lx`);
    }
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('a coat is swapped so that a figure stands out', () => {
  it('from the weak edge to one that is stronger, as the command line reads it', {
    timeout: JOURNEY_ms,
  }, async () => {
    const { page, context, complaints } = await openPage(browser, { before: saveAsDownload });
    const separation = await answerOn(page, 'Separation');
    const card = separation.getByRole('listitem').filter({
      has: page.getByRole('button', { name: 'Ben', exact: true }),
    });
    const share = async () => Number.parseInt((await card.locator('.card-figure').textContent()) ?? '', 10);
    await card.getByText('merges', { exact: true }).first().waitFor();
    await card.getByRole('table', { name: 'Edges of Ben, the weakest first' }).waitFor();
    const before = await share();

    await card.getByRole('button', { name: 'Ben', exact: true }).click();
    await openPanel(page, 'Chosen');
    await page.getByRole('button', { name: 'Above: Dark wool' }).click();
    await page.getByPlaceholder('Search').fill('velvet');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Above: Black velvet' }).waitFor();

    await answerOn(page, 'Separation');
    const after = await share();
    expect(after).toBeGreaterThan(before);
    const { figures } = JSON.parse(await saidOf((await savedFile(page)).text, 'separation', '--json'));
    const ben = figures.find(({ id }: { id: string }) => id === 'ben');
    expect(after).toBe(Math.round(100 * ben.share_over_1_stop));
    const weakest = card.getByRole('table').getByRole('rowheader').first();
    expect(await weakest.textContent()).toBe(`${ben.worst.part} (${ben.worst.side})`);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('the frame is exported and the scene saved', () => {
  it('as a picture that says how it was made, as linear light, and as a file that opens again', {
    timeout: JOURNEY_ms,
  }, async () => {
    const { page, context, complaints } = await openPage(browser, { before: saveAsDownload });
    await page.getByRole('button', { name: 'Export…' }).click();
    const dialog = page.getByRole('dialog', { name: 'Export the frame' });
    await dialog.getByRole('textbox', { name: 'Width, pixels' }).fill('48');
    await dialog
      .getByRole('combobox', { name: 'Quality' })
      .selectOption({ label: 'Quick: 16 samples, grainy' });
    // derived: 48/1.7778
    await dialog.getByText('48 × 27 pixels.').waitFor();
    const png = await exportedFrom(page, dialog);
    expect(png.name).toBe('last-boat-a.png');
    const picture = readPng(png.bytes);
    expect([picture.width, picture.height]).toEqual([48, 27]);
    const texts = Object.fromEntries(picture.texts);
    expect(texts).toMatchObject({
      Title: 'Last boat',
      Software: 'Keyfall',
      Setup: 'base',
      Camera: 'a',
      Exposure: 'f/4, 1/50 s, ISO 1600, ND 0',
      WhiteBalance: '4300 K',
      // derived: K·N²/(t·S) = 12.5·16·50/1600
      MiddleGrey: '6.25 cd/m²',
    });
    expect(texts.Samples).toMatch(/^16 a pixel, seed 1, noise left in, median error 0\.\d+$/);
    expect(new Set(picture.rgb).size).toBeGreaterThan(50);

    await dialog.getByRole('radio', { name: 'Linear light (EXR)' }).check();
    const exr = await exportedFrom(page, dialog);
    expect(exr.name).toBe('last-boat-a.exr');
    // published: the magic number of OpenEXR's file layout, version 2, no flags
    expect(exr.bytes.readUInt32LE(0)).toBe(20_000_630);
    expect(exr.bytes.readUInt32LE(4)).toBe(2);
    const window = exr.bytes.indexOf('dataWindow\0box2i\0', 0, 'latin1') + 'dataWindow\0box2i\0'.length + 4;
    const corners = [0, 4, 8, 12].map((at) => exr.bytes.readInt32LE(window + at));
    expect(corners).toEqual([0, 0, 47, 26]);

    await dialog.getByRole('button', { name: 'Close' }).click();
    const { name, text } = await savedFile(page);
    expect(name).toBe('last-boat.json');
    expect(await saidOf(text, 'meter')).toBe(await keyfall('meter', 'scenes/night-quay.json'));
    expect(complaints).toEqual([]);
    await context.close();
  });
});

async function exportedFrom(page: Page, dialog: Locator) {
  const [download] = await Promise.all([
    page.waitForEvent('download', { timeout: PATIENCE_ms }),
    dialog.getByRole('button', { name: 'Export', exact: true }).click(),
  ]);
  await dialog.getByText(`${download.suggestedFilename()} is where this browser puts downloads.`).waitFor();
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}
