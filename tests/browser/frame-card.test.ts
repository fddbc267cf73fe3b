import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser, openPage } from './support/open-page.ts';

/** Software builds the program of the frame in five to twenty seconds, on a busy machine. */
const PATIENCE_ms = 120_000;
const CARD_WORKER = /card-worker-[^/]*\.js$/;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const words = (page: Page) => page.locator('.frame-words');
const canvas = (page: Page) => page.locator('.frame-picture canvas').first();

/** The card has drawn, and the processor has left off. */
async function drawnByCard(page: Page): Promise<void> {
  await expect
    .poll(() => words(page).textContent(), { timeout: PATIENCE_ms })
    .toMatch(/ISO \d+ · \d+ × \d+, \d+ samples? a pixel/);
}

/** Whether the page has given the canvas away, so that a worker draws on it. */
const isGivenAway = (page: Page) =>
  canvas(page).evaluate((element: HTMLCanvasElement) => {
    try {
      return element.getContext('2d') === null && element.getContext('webgl2') === null;
    } catch {
      return true;
    }
  });

/** Mean of the picture's pixels, 0 to 255. */
async function brightness(page: Page): Promise<number> {
  const shot = (await page.locator('.frame-picture').screenshot()).toString('base64');
  return page.evaluate(async (given) => {
    const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${given}`)).blob());
    const pen = new OffscreenCanvas(32, 18).getContext('2d')!;
    pen.drawImage(image, 0, 0, 32, 18);
    const { data } = pen.getImageData(0, 0, 32, 18);
    return data.reduce((sum, x, i) => sum + (i % 4 === 3 ? 0 : x), 0) / (32 * 18 * 3);
  }, shot);
}

/** Run in the page before its own code: a browser that lets workers draw on no canvas of the page. */
function keepCanvases(): void {
  Reflect.deleteProperty(HTMLCanvasElement.prototype, 'transferControlToOffscreen');
}

describe('the frame of the graphics card', () => {
  it('is drawn by a worker, and handed over without a dark moment', { timeout: 300_000 }, async () => {
    const { page, context, complaints } = await openPage(browser, { frame: 'drawn' });
    await words(page).getByText('making the graphics ready').waitFor();
    const seen: number[] = [];
    const done = drawnByCard(page).then(() => true);
    while (!(await Promise.race([done, brightness(page).then((mean) => seen.push(mean) < 0)])));
    seen.push(await brightness(page));
    // The demo is bright all over in the mean; without a picture the panel is nearly black.
    const last = seen.at(-1)!;
    expect(last).toBeGreaterThan(60);
    for (const mean of seen) expect(Math.abs(mean - last) / last).toBeLessThan(0.3);
    expect(await isGivenAway(page)).toBe(true);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is drawn by the page where workers cannot have its canvas', { timeout: 300_000 }, async () => {
    const { page, context, complaints } = await openPage(browser, { frame: 'drawn', before: keepCanvases });
    await drawnByCard(page);
    expect(await brightness(page)).toBeGreaterThan(60);
    expect(await isGivenAway(page)).toBe(false);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is drawn by the page where workers have no graphics', { timeout: 300_000 }, async () => {
    const { page, context, complaints } = await openPage(browser);
    await page.route(CARD_WORKER, async (route) => {
      const script = await (await route.fetch()).text();
      await route.fulfill({
        contentType: 'text/javascript',
        body: `OffscreenCanvas.prototype.getContext = () => null;\n${script}`,
      });
    });
    await page.getByRole('button', { name: 'Go on', exact: true }).click();
    await drawnByCard(page);
    expect(await brightness(page)).toBeGreaterThan(60);
    expect(await isGivenAway(page)).toBe(false);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('says that it stopped where its worker cannot be started, and starts again', {
    timeout: 300_000,
  }, async () => {
    const { page, context } = await openPage(browser);
    await page.route(CARD_WORKER, (route) => route.abort());
    await page.getByRole('button', { name: 'Go on', exact: true }).click();
    await page.getByText('The frame stopped:').waitFor({ timeout: PATIENCE_ms });
    await page.unroute(CARD_WORKER);
    await page.getByRole('button', { name: 'Start it again' }).click();
    await drawnByCard(page);
    await context.close();
  });
});
