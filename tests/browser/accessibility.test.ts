import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser, openPage, openPanel, settled } from './support/open-page.ts';

const PANELS = ['Chosen', 'Build', 'Readings', 'Power', 'Meter back'];

let browser: Browser;
let page: Page;
let context: BrowserContext;
beforeAll(async () => {
  browser = await launchBrowser();
  ({ page, context } = await openPage(browser));
  await page.evaluate(axe.source);
});
afterAll(async () => {
  await context.close();
  await browser.close();
});

/** What the checker finds within a part of the page, with the elements that it found it in. */
async function faultsIn(part: string): Promise<string[]> {
  await settled(page);
  const { violations } = await page.evaluate(
    (within) => (window as unknown as { axe: typeof axe }).axe.run(within),
    part,
  );
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`,
  );
}

describe.each([
  ['night', 'For the night'],
  ['day', 'For the day'],
])('the page for the %s', (scheme, words) => {
  it('has no fault that a checker finds, on the desk, in its panels and in the list of commands', async () => {
    await page.getByRole('button', { name: 'Units and light' }).click();
    await page.getByRole('menuitemradio', { name: words }).click();
    await page.locator(`:root[data-scheme=${scheme}]`).waitFor();
    await openPanel(page, PANELS[0]!);
    const faults: Record<string, string[]> = { page: await faultsIn('body') };
    for (const panel of PANELS.slice(1)) {
      await openPanel(page, panel);
      faults[panel] = await faultsIn('.side-panels');
    }
    await page.keyboard.press('Control+k');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor();
    faults.commands = await faultsIn('.command-list');
    await page.keyboard.press('Escape');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor({ state: 'detached' });
    expect(Object.entries(faults).filter(([, found]) => found.length > 0)).toEqual([]);
  });

  it('can be read where it is pressed and pointed at', async () => {
    await page.getByRole('radio', { name: 'Picture' }).hover();
    expect(await faultsIn('.frame-tools')).toEqual([]);
    await page.locator('.setup-card').nth(1).click();
    const hold = page.locator('.hold-other');
    await hold.hover();
    await page.mouse.down();
    await hold.and(page.locator('[aria-pressed=true]')).waitFor();
    expect(await faultsIn('.setups-strip')).toEqual([]);
    await page.mouse.up();
    await page.locator('.setup-card').first().click();
  });
});
