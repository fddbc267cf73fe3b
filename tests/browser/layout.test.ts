import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clippedTexts, controlsOutOfSight, overlappingControls } from './support/layout-checks.ts';
import { launchBrowser, openPage, settled } from './support/open-page.ts';

/**
 * Laptops small and large, a large screen, a ten-inch tablet both ways; and of the page's area that the picture in the frame
 * has at least, per cent. Regression: 11.4, 11.4, 13.7, 16.1, 23.6, 11.8 and 15.2.
 */
const SIZES = [
  [1024, 700, 11, 'mouse'],
  [1024, 700, 11, 'touch'],
  [1280, 800, 13, 'mouse'],
  [1440, 900, 15, 'mouse'],
  [2560, 1440, 22, 'mouse'],
  [1080, 810, 11, 'touch'],
  [810, 1080, 14, 'touch'],
] as const;

const NEEDLES_OF_DEMO = 7;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(async () => browser?.close());

describe.each(SIZES)('the page at %i × %i', (width, height, picture_percent, hand) => {
  it('holds together, in both schemes and in both systems of lengths', { timeout: 240_000 }, async () => {
    const { page, context, complaints } = await openPage(browser, { width, height, touch: hand === 'touch' });
    await check(page, width, height, picture_percent);
    await chooseUnits(page, 'For the day: light');
    await chooseUnits(page, 'Feet and inches');
    await chooseUnits(page, 'Foot-candles');
    await check(page, width, height, picture_percent);
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

async function check(page: Page, width: number, height: number, picture_percent: number): Promise<void> {
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
  expect((100 * picture.width * picture.height) / (width * height)).toBeGreaterThan(picture_percent);

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

/** Those whose lanes are in sight without scrolling. */
async function needlesInSight(page: Page): Promise<number> {
  return page.locator('.rule-lanes').evaluate((lanes) => {
    const { top, bottom } = lanes.getBoundingClientRect();
    return [...lanes.querySelectorAll('.needle')].filter((needle) => {
      const box = needle.getBoundingClientRect();
      return box.top >= top - 1 && box.bottom <= bottom + 1;
    }).length;
  });
}
