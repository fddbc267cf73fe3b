import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyfall } from './support/command-line.ts';
import { launchBrowser, openPage, readingsOn } from './support/open-page.ts';
import { withoutGraphics } from './support/without-graphics.ts';

const DEMO = 'scenes/night-quay.json';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const words = (page: Page) => page.getByTestId('focus-range');
const drawn = (page: Page) => page.locator('.frame-focus');

async function toggleFocusRange(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Over it' }).click();
  await page.getByRole('menuitemcheckbox', { name: 'Focus range' }).click();
  await page.keyboard.press('Escape');
}

/** Metres to the centimetre, as the page writes them. */
async function limitsOf(camera: string): Promise<string> {
  const { lens } = JSON.parse(await keyfall('lens', DEMO, '--camera', camera, '--json'));
  return [lens.near_m, lens.far_m]
    .map((distance_m: number) => `${Number(distance_m.toFixed(2))} m`)
    .join(' – ');
}

describe('the focus range over the frame', () => {
  it('hatches what the command line says is sharp, camera by camera, and changes no reading', {
    timeout: 180_000,
  }, async () => {
    const { page, context, complaints } = await openPage(browser);
    const before = await readingsOn(page);
    await toggleFocusRange(page);
    for (const [camera, label] of [
      ['a', 'A, quay level'],
      ['b', 'B, close on Ada'],
    ] as const) {
      await page.getByRole('combobox', { name: 'Camera' }).selectOption({ label });
      const limits = await limitsOf(camera);
      await words(page).getByText(`${limits} along the axis ±5 %, circle 0.0275 mm`).waitFor();
      expect(await drawn(page).textContent()).toBe(`Sharp ${limits}`);
      expect((await drawn(page).locator('path').last().getAttribute('d'))?.length).toBeGreaterThan(100);
    }
    await page.getByRole('combobox', { name: 'Camera' }).selectOption({ label: 'A, quay level' });
    expect(await readingsOn(page)).toEqual(before);

    await page.getByRole('button', { name: /^Units/ }).click();
    await page.getByRole('menuitemradio', { name: 'Feet and inches' }).click();
    await page.keyboard.press('Escape');
    await words(page)
      .getByText(/Sharp where hatched: \d+ ft .* – \d+ ft/)
      .waitFor();
    await toggleFocusRange(page);
    await drawn(page).waitFor({ state: 'detached' });
    expect(await words(page).count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is there without graphics too: it is answered by the core', { timeout: 120_000 }, async () => {
    const { page, context } = await openPage(browser, { before: withoutGraphics });
    await toggleFocusRange(page);
    await words(page)
      .getByText(await limitsOf('a'))
      .waitFor();
    expect(await drawn(page).isVisible()).toBe(true);
    await context.close();
  });
});
