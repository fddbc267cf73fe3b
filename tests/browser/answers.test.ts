import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyfall } from './support/command-line.ts';
import { launchBrowser, openPage } from './support/open-page.ts';

const DEMO = 'scenes/night-quay.json';
/** The slowest answers take seconds on a busy machine. */
const PATIENCE_ms = 60_000;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** Opens a panel of answers and waits for its last word. */
async function answerOn(page: Page, name: string): Promise<Locator> {
  await page.getByRole('tab', { name, exact: true }).click();
  const panel = page.getByRole('region', { name, exact: true });
  await panel.and(page.locator('[data-state=fresh]')).waitFor({ timeout: PATIENCE_ms });
  return panel;
}

async function printed(...args: string[]): Promise<string[]> {
  return (await keyfall(...args)).split('\n');
}

describe('answers on the page', () => {
  it('are those of the command line, can be tried and undone', { timeout: 240_000 }, async () => {
    const { page, context, complaints } = await openPage(browser);

    const glints = await answerOn(page, 'Glints');
    const lines = await printed('glints', DEMO);
    expect(await glints.locator('.verdict').textContent()).toBe(lines[3]);
    const sentences = await glints.locator('.card > p').allTextContents();
    expect(sentences).toEqual(lines.filter((line) => line.startsWith('• ')).map((line) => line.slice(2)));
    await glints.getByRole('button', { name: /^Try it: stand down 1\.1 m/ }).press('Enter');
    // The button is gone; the keyboard is not.
    await page.locator('[role=tabpanel]:focus').waitFor();
    await glints.getByText('Backlight mirrors white in this frame.').waitFor({ timeout: PATIENCE_ms });
    await page.keyboard.press('Control+z');
    await glints.getByText(lines[3]!).waitFor({ timeout: PATIENCE_ms });

    const power = await answerOn(page, 'Power');
    await power.getByLabel('Runs for').fill('9 h');
    await power.getByLabel('Runs for').press('Enter');
    const bring = (await printed('power', DEMO, '--hours', '9')).find((line) => line.includes('bring'))!;
    await power.getByText(bring).waitFor();
    await power.getByText('Electricity: distribution, tie-ins and earthing').waitFor();

    const meter = await answerOn(page, 'Meter back');
    await meter.getByLabel('Meter shows').selectOption('f-number');
    await meter.getByLabel('f-number', { exact: true }).fill('f/5.6');
    await meter.getByRole('button', { name: 'Only Backlight' }).click();
    // derived: 330 · 5.6² · 50/1600 = 323.4 lx on the dome (ISO 2720)
    await meter.getByText('323 lx on the dome, ±0.1 stop, of one lamp alone.').waitFor();
    await meter.getByRole('button', { name: 'Take it down' }).click();
    await meter
      .getByRole('button', { name: 'Strike out reading reading-2' })
      .waitFor({ timeout: PATIENCE_ms });
    await page.keyboard.press('Control+z');

    const separation = await answerOn(page, 'Separation');
    const said = await separation.getByRole('list', { name: /^What is to be known/ }).allTextContents();
    const all = (await printed('separation', DEMO)).join('');
    for (const one of said) expect(all).toContain(one);
    expect(said).toHaveLength(2);

    expect(complaints).toEqual([]);
    await context.close();
  });

  it('fit the width of their panel, table by table', { timeout: 240_000 }, async () => {
    const { page, context, complaints } = await openPage(browser);
    // By the list of commands, after which the keys go on in the panel.
    await page.keyboard.press('Control+k');
    await page.keyboard.type('night sky');
    await page.keyboard.press('Enter');
    await page
      .locator('[role=tab]:focus')
      .and(page.getByRole('tab', { name: 'Night sky' }))
      .waitFor();
    for (const name of [
      'Power',
      'Stands in wind',
      'Night sky',
      'Meter back',
      'Lens and shutter',
      'Separation',
    ]) {
      const panel = await answerOn(page, name);
      const tables = await panel
        .locator('.answer-scroll')
        .evaluateAll((all) =>
          all.map((one) => [one.getAttribute('aria-label'), one.scrollWidth - one.clientWidth]),
        );
      expect(tables.length, name).toBeGreaterThan(0);
      expect(tables.filter(([, beyond_px]) => Number(beyond_px) > 0)).toEqual([]);
    }
    const power = await answerOn(page, 'Power');
    const back = power
      .getByRole('table', { name: 'Lamps and what they draw' })
      .getByRole('row')
      .filter({ has: page.getByRole('rowheader', { name: 'Backlight', exact: true }) });
    for (const cell of ['Daylight discharge 1.8 kW, spot', 'Generator on the lorry', '2070', '9.2 A'])
      await back.getByRole('cell', { name: cell, exact: true }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
