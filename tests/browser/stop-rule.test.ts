import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyfall, readingLines } from './support/command-line.ts';
import { launchBrowser, openPage } from './support/open-page.ts';

const DEMO = 'scenes/night-quay.json';
const SETTLING_ms = 60_000;

let browser: Browser;
let page: Page;
let complaints: string[];
beforeAll(async () => {
  browser = await launchBrowser();
  ({ page, complaints } = await openPage(browser, { width: 1440, height: 900 }));
});
afterAll(async () => browser?.close());

const rule = () => page.getByRole('region', { name: 'Stop rule' });
const needle = (name: string) => rule().getByRole('option', { name: new RegExp(`${name} `) });
const settledRule = () => page.locator('.stop-rule[aria-busy=false]').waitFor({ timeout: SETTLING_ms });

/** What is written beside a needle. */
async function figuresOf(name: string): Promise<string> {
  return ((await needle(name).locator('.needle-figures').textContent()) ?? '').replace(/\s+/g, ' ');
}

/** One page, step after step, as an evening goes. */
describe('the stop rule', () => {
  it('has a needle for every mark, with the figures of the command line', async () => {
    await settledRule();
    const lines = readingLines(await keyfall('meter', DEMO));
    expect(lines.length).toBeGreaterThan(0);
    for (const [name, , reading, stops] of lines)
      expect(await figuresOf(name!)).toBe(`${stops} ${reading} lx`);
  });

  it('goes along the ruler by the arrow keys, and says what is read there', async () => {
    await needle('Ada, face').click();
    await page.keyboard.press('ArrowRight');
    const chosen = rule().getByRole('listbox').getByRole('option', { selected: true });
    expect(await chosen.getAttribute('data-needle')).toBe('shaft');
    expect(await rule().getByTestId('mark-detail').textContent()).toContain('Window shaft on the quay');
    await page.keyboard.press('End');
    expect(await chosen.getAttribute('data-needle')).toBe('ben-rim');
  });

  it('leaves lamps out at once, says so, and takes them in again', async () => {
    const before = await figuresOf('Ada, rim');
    await rule().getByRole('button', { name: 'Backlight counts' }).click();
    expect(await rule().getByText('Without Backlight').isVisible()).toBe(true);
    expect(await figuresOf('Ada, rim')).not.toBe(before);
    await rule()
      .getByRole('button', { name: 'Key, second boat counts' })
      .click({ modifiers: ['Shift'] });
    expect(await rule().getByText('Key, second boat alone, with the sky').isVisible()).toBe(true);
    await rule().getByRole('button', { name: 'All lamps' }).click();
    expect(await figuresOf('Ada, rim')).toBe(before);
  });

  it('brings a mark to where its flag is set, in one step that undo takes back', {
    timeout: 120_000,
  }, async () => {
    await needle('Ada, face').click();
    const before = await figuresOf('Ada, face');
    const flag = rule().getByRole('slider', { name: 'Wanted at Ada, face' });
    await flag.press('ArrowLeft');
    expect(await flag.getAttribute('aria-valuetext')).toBe('0 stops');
    await rule().getByRole('button', { name: 'Find levels' }).click();
    await rule().getByRole('button', { name: 'Take these levels' }).click({ timeout: SETTLING_ms });
    await settledRule();
    expect(await figuresOf('Ada, face')).toMatch(/^0 /);
    await needle('Ada, face').press('Control+z');
    await settledRule();
    expect(await figuresOf('Ada, face')).toBe(before);
    await flag.press('Delete');
    expect(await flag.getAttribute('aria-valuetext')).toBe('nothing yet');
  });

  it('makes no complaint', () => {
    expect(complaints).toEqual([]);
  });
});
