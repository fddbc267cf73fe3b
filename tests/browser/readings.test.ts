import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyfall, lampLines, ofWhichLines, readingLines } from './support/command-line.ts';
import { freshNumbers, launchBrowser, openPage, partsOn, readingsOn } from './support/open-page.ts';

const DEMO = 'scenes/night-quay.json';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** The page and the command line are two ways to one number: they agree in every digit that either prints. */
describe('readings on the page', () => {
  it('are those of the command line, mark by mark and lamp by lamp', async () => {
    const { page, context } = await openPage(browser);
    const text = await keyfall('meter', DEMO);
    expect(await readingsOn(page)).toEqual(readingLines(text));
    const byLamp = lampLines(text);
    expect(byLamp.size).toBe(7);
    for (const [mark, parts] of byLamp) {
      await page.locator('tr[data-mark]').getByRole('button', { name: mark }).click();
      const shown = (await partsOn(page)).map(([id, reading, stops]) => {
        if (id === 'sky') return [id, reading];
        return [id, reading === '0' ? '–' : `${reading} (${stops})`];
      });
      expect(shown).toEqual([...parts]);
      const [bounce, haze] = ofWhichLines(text).get(mark)!;
      const ofWhich = `Of it ${bounce} lx by way of surfaces and glass, ${haze} lx from the glow of haze.`;
      expect(await page.getByTestId('of-which').textContent()).toBe(ofWhich);
    }
    for (const convention of text.split('\n').slice(-5)) {
      await page.getByText(convention, { exact: true }).waitFor();
    }
    await context.close();
  });

  it('are in foot-candles when asked', async () => {
    const { page, context } = await openPage(browser);
    await page.getByText('foot-candles').click();
    expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO, '--unit', 'fc')));
    expect(await page.getByRole('columnheader', { name: 'fc' }).first().textContent()).toBe('fc');
    await page.getByText('lux', { exact: true }).click();
    expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO)));
    await context.close();
  });

  it('count from the chosen camera', async () => {
    const { page, context } = await openPage(browser);
    await page.getByLabel('Camera', { exact: true }).selectOption('b');
    await freshNumbers(page);
    expect(await page.getByTestId('exposure-heading').textContent()).toContain('camera b');
    expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO, '--camera', 'b')));
    await context.close();
  });

  it.each(['1a', '1b', '2'])('are those of setup %s, which is looked at and not edited', async (setup) => {
    const { page, context } = await openPage(browser);
    const base = await readingsOn(page);
    await page.getByLabel('Setup', { exact: true }).selectOption(setup);
    expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO, '--setup', setup)));
    expect(await page.getByRole('slider', { name: 'Level' }).isDisabled()).toBe(true);
    expect(await page.getByRole('switch', { name: 'Backlight on' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Show the base' }).click();
    expect(await readingsOn(page)).toEqual(base);
    expect(await page.getByRole('slider', { name: 'Level' }).isDisabled()).toBe(false);
    await context.close();
  });
});
