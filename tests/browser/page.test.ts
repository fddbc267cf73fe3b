import { readFile } from 'node:fs/promises';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  drawnView,
  dropFiles,
  launchBrowser,
  openPage,
  openPanel,
  readingsOn,
  saveAsDownload,
  savedFile,
  settled,
} from './support/open-page.ts';
import { withoutGraphics } from './support/without-graphics.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

describe('the page', () => {
  // Building the frame's program in software takes most of it.
  it('opens the demo with its numbers and its frame, and complains about nothing', {
    timeout: 120_000,
  }, async () => {
    const { page, context, complaints } = await openPage(browser, { frame: 'drawn' });
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Last boat');
    expect(await page.title()).toBe('Last boat · Keyfall');
    expect((await readingsOn(page)).length).toBe(7);
    // Until the card has a whole sample, the processor's frame stands in.
    await page.waitForFunction(
      () =>
        Number(document.querySelector('[data-testid=frame-progress]')?.getAttribute('data-samples')) > 0 ||
        document.querySelector('.frame-worth')?.textContent?.includes('a pixel'),
    );
    await page.getByRole('button', { name: 'Hold', exact: true }).click();
    await page.getByTestId('frame-held').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('draws the set: many colours, unevenly spread', async () => {
    const { page, context } = await openPage(browser);
    const canvas = await drawnView(page);
    const png = await canvas.screenshot();
    const picture = await page.evaluate(async (base64) => {
      const image = new Image();
      image.src = `data:image/png;base64,${base64}`;
      await image.decode();
      const sheet = new OffscreenCanvas(image.width, image.height);
      const pen = sheet.getContext('2d')!;
      pen.drawImage(image, 0, 0);
      const { data } = pen.getImageData(0, 0, image.width, image.height);
      const colours = new Set<number>();
      let sum = 0;
      let squares = 0;
      for (let i = 0; i < data.length; i += 4) {
        colours.add((data[i]! << 16) | (data[i + 1]! << 8) | data[i + 2]!);
        const grey = (data[i]! + data[i + 1]! + data[i + 2]!) / 3;
        sum += grey;
        squares += grey * grey;
      }
      const count = data.length / 4;
      return { colours: colours.size, variance: squares / count - (sum / count) ** 2 };
    }, png.toString('base64'));
    // A blank canvas has one colour and no variance; a drawing with smooth edges has hundreds.
    expect(picture.colours).toBeGreaterThan(200);
    expect(picture.variance).toBeGreaterThan(50);
    await context.close();
  });

  it.each([
    // A low window that only a mouse is near has smaller ones, for a larger picture.
    ['a gloved finger', true, 44],
    ['a mouse', false, 36],
  ])('has nothing wider than its window, and every target for %s', async (_, touch, least_px) => {
    const { page, context } = await openPage(browser, { touch });
    for (const [width, height] of [
      [1280, 800],
      [1024, 700],
      [800, 1200],
      [390, 844],
    ] as const) {
      await page.setViewportSize({ width, height });
      for (const panel of ['Chosen', 'Readings']) {
        await openPanel(page, panel);
        await settled(page);
        const small = await page
          .locator('button, select, .unit-choice label, .typed, input[type=range]')
          .evaluateAll(
            (targets, least) =>
              targets
                .filter((target) => target.getClientRects().length > 0)
                .filter((target) => target.getBoundingClientRect().height < least - 0.5)
                .map((target) => target.textContent || target.className),
            least_px,
          );
        expect({ width, panel, small }).toEqual({ width, panel, small: [] });
      }
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }
    await context.close();
  });

  it('names the limits of what it says', async () => {
    const { page, context } = await openPage(browser);
    const cautions = await page.getByRole('contentinfo').textContent();
    for (const word of ['Planning aid only', 'local codes', 'competent people', 'eyes', 'stands', 'mains']) {
      expect(cautions).toContain(word);
    }
    await context.close();
  });

  it('gives the scene back as a file that opens again', async () => {
    const { page, context } = await openPage(browser, { before: saveAsDownload });
    const before = await readingsOn(page);
    const { name, text } = await savedFile(page);
    expect(name).toBe('last-boat.json');
    const saved = JSON.parse(text);
    const demo = JSON.parse(await readFile('scenes/night-quay.json', 'utf8'));
    expect(saved).toEqual(demo);
    await openPanel(page, 'Lamps');
    await page.getByRole('switch', { name: 'Backlight on' }).click();
    await dropFiles(page, [{ name: 'again.json', content: text }]);
    await page.getByRole('switch', { name: 'Backlight on', checked: true }).waitFor();
    expect(await readingsOn(page)).toEqual(before);
    await context.close();
  });
});

describe('a page that cannot do everything', () => {
  it('says so without WebGL 2, and still gives the numbers', async () => {
    const { page, context, complaints } = await openPage(browser, { before: withoutGraphics });
    await page.getByRole('tab', { name: '3D', exact: true }).click();
    await page.getByText('does not offer WebGL 2').waitFor();
    await page.getByRole('button', { name: 'Go on', exact: true }).click();
    await page.getByText('Made without graphics, small and slow.').waitFor();
    const before = await readingsOn(page);
    expect(before.length).toBe(7);
    await openPanel(page, 'Lamps');
    await page.getByRole('switch', { name: 'Backlight on' }).click();
    expect(await readingsOn(page)).not.toEqual(before);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('says so when the graphics device goes, and draws again when asked', async () => {
    const { page, context } = await openPage(browser);
    const canvas = await drawnView(page);
    await canvas.evaluate((element: HTMLCanvasElement) => {
      element.getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext();
    });
    await page.getByText('The view stopped').waitFor();
    expect((await readingsOn(page)).length).toBe(7);
    await page.getByRole('button', { name: 'Draw it again' }).click();
    await drawnView(page);
    await context.close();
  });

  it('says so when the worker fails, and starts it again when asked', async () => {
    const { page, context } = await openPage(browser, {
      before: () => {
        const RealWorker = window.Worker;
        const workers: Worker[] = [];
        Object.assign(window, { workers });
        window.Worker = class extends RealWorker {
          constructor(...given: ConstructorParameters<typeof Worker>) {
            super(...given);
            workers.push(this);
          }
        };
      },
    });
    const before = await readingsOn(page);
    await page.evaluate(() => {
      const { workers } = window as unknown as { workers: Worker[] };
      for (const worker of workers)
        worker.dispatchEvent(new ErrorEvent('error', { message: 'out of memory' }));
    });
    await openPanel(page, 'Lamps');
    await page.getByRole('switch', { name: 'Backlight on' }).click();
    await page.getByText('The meter stopped (out of memory)').first().waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Start again' }).first().click();
    expect(await readingsOn(page)).toEqual(before);
    await context.close();
  });
});
