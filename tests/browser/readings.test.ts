import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyfall, lampLines, ofWhichLines, readingLines } from './support/command-line.ts';
import {
  freshNumbers,
  launchBrowser,
  openPage,
  openPanel,
  partsOn,
  readingsOn,
} from './support/open-page.ts';

const DEMO = 'scenes/night-quay.json';

let browser: Browser;
let page: Page;
let context: BrowserContext;
beforeAll(async () => {
  browser = await launchBrowser();
  ({ page, context } = await openPage(browser));
});
afterAll(async () => {
  await context.close();
  await browser.close();
});

function choose(label: string, option: string) {
  return page.getByLabel(label, { exact: true }).selectOption(option);
}

/** The page and the command line are two ways to one number: they agree in every digit that either prints. */
describe('readings on the page', () => {
  it('are those of the command line, mark by mark and lamp by lamp', async () => {
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
  });

  it('are in foot-candles when asked', async () => {
    await openPanel(page, 'Readings');
    await page.getByText('foot-candles').click();
    expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO, '--unit', 'fc')));
    expect(await page.getByRole('columnheader', { name: 'fc' }).first().textContent()).toBe('fc');
    await page.getByText('lux', { exact: true }).click();
    expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO)));
  });

  it('count from the chosen camera', async () => {
    await choose('Camera', 'b');
    await freshNumbers(page);
    expect(await page.getByTestId('exposure-heading').textContent()).toContain('camera b');
    expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO, '--camera', 'b')));
    await choose('Camera', 'a');
  });

  it('are those of the setup that is shown, whose changes leave the base alone', async () => {
    const base = await readingsOn(page);
    for (const setup of ['1a', '1b', '2']) {
      await choose('Setup', setup);
      expect(await readingsOn(page)).toEqual(readingLines(await keyfall('meter', DEMO, '--setup', setup)));
    }
    const before = await readingsOn(page);
    await openPanel(page, 'Lamps');
    await page.getByRole('switch', { name: 'Soft fill by camera on' }).click();
    expect(await readingsOn(page)).not.toEqual(before);
    await choose('Setup', '');
    expect(await readingsOn(page)).toEqual(base);
    await page.keyboard.press('Control+z');
    await choose('Setup', '2');
    expect(await readingsOn(page)).toEqual(before);
  });
});
