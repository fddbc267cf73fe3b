import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dropFiles, launchBrowser, openPage } from './support/open-page.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** So often is it looked whether the frame has followed: software draws slowly. */
const LOOKS = 60;

describe('the frame', () => {
  it('has everything of its menu in the list of commands, in the same words', async () => {
    const { page, context } = await openPage(browser);
    await page.getByRole('button', { name: 'Over it' }).click();
    // What cannot be done now is not in the list either.
    const items = page.locator('.menu [role^=menuitem]:not([aria-disabled])');
    await items.first().waitFor();
    const inMenu = (await items.allTextContents()).map((words) => words.replace('✓', '').trim());
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+k');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor();
    const inList = (await page.getByRole('option').allTextContents()).map((words) => words.toLowerCase());
    const missing = inMenu.filter((words) => !inList.some((name) => name.includes(words.toLowerCase())));
    expect(inMenu.length).toBeGreaterThan(10);
    expect(missing).toEqual([]);
    await context.close();
  });

  it('is exported from the keyboard alone', { timeout: 60_000 }, async () => {
    const { page, context } = await openPage(browser);
    await page.getByRole('button', { name: 'Commands', exact: true }).press('Enter');
    await page.keyboard.type('export');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').getByRole('heading', { name: 'Export the frame' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await context.close();
  });

  it('shows nothing of the scene that was open before', { timeout: 120_000 }, async () => {
    const { page, context } = await openPage(browser, { frame: 'drawn' });
    await page.waitForFunction(
      () =>
        Number(document.querySelector('[data-testid=frame-progress]')?.getAttribute('data-samples')) > 0 ||
        document.querySelector('.frame-worth')?.textContent?.includes('a pixel'),
      undefined,
      { timeout: 90_000 },
    );
    // derived: the demo is lit, and a new scene has no lamp
    expect(await brightness(page)).toBeGreaterThan(20);
    await page.getByRole('button', { name: 'File', exact: true }).click();
    await page.getByRole('menuitem', { name: /^New/ }).click();
    await page.getByRole('heading', { level: 1, name: 'New scene' }).waitFor();
    expect(await brightness(page)).toBeLessThan(2);
    await context.close();
  });

  it('follows a lamp that does not stand still, before it is let go', { timeout: 240_000 }, async () => {
    const { page, context, complaints } = await openPage(browser);
    const content = await readFile(new URL('../../scenes/lamp-and-card.json', import.meta.url), 'utf8');
    await dropFiles(page, [{ name: 'lamp-and-card.json', content }]);
    await page.getByRole('heading', { level: 1, name: 'One lamp, one card' }).waitFor();
    await page.getByRole('button', { name: 'Go on', exact: true }).click();
    await page.waitForFunction(
      () => Number(document.querySelector('[data-testid=frame-progress]')?.getAttribute('data-samples')) > 0,
      undefined,
      { timeout: 120_000 },
    );
    const before = await brightness(page);
    const { x, y, width, height } = (await page
      .locator('.plan-svg [data-thing="lamp"] .plan-plate')
      .boundingBox())!;
    const [fromX, fromY] = [x + width / 2, y + height / 2];
    await page.mouse.move(fromX, fromY);
    await page.mouse.down();
    // Behind the card, which it then does not light any more; never twice in one place.
    let now = before;
    for (let i = 0; i < LOOKS && now > before / 2; i++) {
      for (let k = 0; k < 4; k++) await page.mouse.move(fromX + i + k, fromY - 140 - 4 * i);
      now = await brightness(page);
    }
    // derived: the card is most of what is bright, and gets nothing from behind
    expect(now).toBeLessThan(before / 2);
    await page.mouse.up();
    expect(complaints).toEqual([]);
    await context.close();
  });
});

/** Mean of the frame as it is on the screen, 0..255. */
async function brightness(page: Page): Promise<number> {
  const png = await page.locator('.frame-picture').screenshot();
  return page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const sheet = new OffscreenCanvas(image.width, image.height);
    const pen = sheet.getContext('2d')!;
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, image.width, image.height);
    let sum = 0;
    for (let i = 0; i < data.length; i += 4) sum += (data[i]! + data[i + 1]! + data[i + 2]!) / 3;
    return sum / (data.length / 4);
  }, png.toString('base64'));
}
