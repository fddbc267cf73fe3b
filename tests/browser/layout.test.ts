import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clippedTexts, controlsOutOfSight, overlappingControls } from './support/layout-checks.ts';
import { launchBrowser, openPage, settled } from './support/open-page.ts';

/** Laptops small and large, a large screen, a ten-inch tablet both ways. */
const SIZES = [
  [1024, 700],
  [1280, 800],
  [1440, 900],
  [2560, 1440],
  [1080, 810],
  [810, 1080],
] as const;

/** Of the page's area that the picture in the frame has at least. Regression: 8.8 % at 1024 × 700, 17 % at 2560 × 1440. */
const LEAST_PICTURE = 0.08;
const NEEDLES_OF_DEMO = 7;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(async () => browser?.close());

describe.each(SIZES)('the page at %i × %i', (width, height) => {
  it('holds together, in both schemes and in both systems of lengths', { timeout: 240_000 }, async () => {
    const { page, context, complaints } = await openPage(browser, { width, height });
    await check(page, width, height);
    await chooseUnits(page, 'For the day: light');
    await chooseUnits(page, 'Feet and inches');
    await chooseUnits(page, 'Foot-candles');
    await check(page, width, height);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

async function chooseUnits(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: /^Units/ }).click();
  await page.getByRole('menuitemradio', { name }).click();
  await page.keyboard.press('Escape');
  await page.getByRole('menu').waitFor({ state: 'detached' });
}

async function check(page: Page, width: number, height: number): Promise<void> {
  // The pointer lies on nothing, and nothing is lit by it.
  await page.mouse.move(1, 1);
  await settled(page);
  const whole = await page.evaluate(() => {
    const { scrollWidth, scrollHeight } = document.documentElement;
    return { scrollWidth, scrollHeight };
  });
  expect(whole.scrollWidth, 'the page does not scroll sideways').toBeLessThanOrEqual(width);
  expect(whole.scrollHeight, 'nor down').toBeLessThanOrEqual(height);

  for (const part of [
    page.getByRole('region', { name: 'Frame', exact: true }),
    page.locator('.plan-svg'),
    page.getByRole('region', { name: 'Stop rule', exact: true }),
    page.getByRole('region', { name: 'Setups', exact: true }),
    page.getByRole('tablist', { name: 'Panels' }),
    page.getByRole('contentinfo'),
  ]) {
    const box = (await part.boundingBox())!;
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.y).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width).toBeLessThanOrEqual(width + 0.5);
    expect(box.y + box.height).toBeLessThanOrEqual(height + 0.5);
    expect(box.height).toBeGreaterThan(10);
  }

  const picture = (await page.locator('.frame-picture').boundingBox())!;
  expect((picture.width * picture.height) / (width * height)).toBeGreaterThan(LEAST_PICTURE);

  expect(await page.evaluate(clippedTexts)).toEqual([]);
  expect(await page.evaluate(overlappingControls)).toEqual([]);
  expect(
    await page.evaluate(
      controlsOutOfSight,
      '.top-bar, .frame-tools, .plan-head-row, .setup-tools, .side-tabs',
    ),
  ).toEqual([]);
  expect(await needlesInSight(page)).toBe(NEEDLES_OF_DEMO);
}

/** Those whose lanes are in sight, and those that the ruler says are above them. */
async function needlesInSight(page: Page): Promise<number> {
  return page.locator('.rule-lanes').evaluate((lanes) => {
    const { top, bottom } = lanes.getBoundingClientRect();
    const seen = [...lanes.querySelectorAll('.needle')].filter((needle) => {
      const box = needle.getBoundingClientRect();
      return box.top >= top - 6 && box.bottom <= bottom + 1;
    }).length;
    const more = Number.parseInt(document.querySelector('.rule-above')?.textContent ?? '0', 10);
    return seen + more;
  });
}
