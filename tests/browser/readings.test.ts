import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyfall, lampLines, ofWhichLines, readingLines, straightLines } from './support/command-line.ts';
import {
  FIELDS,
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

  it('are of straight light at once after an undo and say so, then of all light', async () => {
    await choose('Setup', '');
    const all = readingLines(await keyfall('meter', DEMO));
    const straight = straightLines(await keyfall('meter', DEMO, '--direct', '--error', '0.1'));
    expect(straight).not.toEqual(all);
    await openPanel(page, 'Lamps');
    await page.getByRole('switch', { name: 'Soft fill by camera on' }).click();
    const dark = await readingsOn(page);
    await writeDownReadings(page);
    await page.keyboard.press('Control+z');
    expect(await readingsOn(page)).toEqual(all);
    const [first, second, ...later] = await page.evaluate(() => window.readingsShown);
    expect(first).toEqual({ state: 'stale', words: 'metering…', rows: dark });
    expect(second).toEqual({ state: 'straight', words: 'straight light, the rest follows…', rows: straight });
    expect(later.slice(0, -1).every(({ state }) => state === 'settling')).toBe(true);
    expect(later.at(-1)).toEqual({ state: 'fresh', words: '', rows: all });
  });
});

interface ShownReadings {
  readonly state: string;
  readonly words: string;
  /** As `readingsOn` has them. */
  readonly rows: readonly (readonly string[])[];
}

declare global {
  interface Window {
    readingsShown: ShownReadings[];
  }
}

/** From here on the page writes down all that its table of readings comes to show, and what it says that is worth. */
async function writeDownReadings(of: Page): Promise<void> {
  await of.evaluate((fields) => {
    const written: ShownReadings[] = [];
    window.readingsShown = written;
    const panel = document.querySelector('.panel.readings')!;
    new MutationObserver(() => {
      written.push({
        state: panel.querySelector('[data-testid=figures]')?.getAttribute('data-state') ?? '?',
        words: panel.querySelector('[data-testid=freshness]')?.textContent ?? '?',
        rows: [...panel.querySelectorAll('tr[data-mark]')].map((row) =>
          fields.map((field) => row.querySelector(`[data-field=${field}]`)?.textContent ?? '?'),
        ),
      });
    }).observe(panel, { subtree: true, childList: true, attributes: true, characterData: true });
  }, FIELDS);
}
