import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser, openPage } from './support/open-page.ts';

let browser: Browser;
let page: Page;
let complaints: string[];
beforeAll(async () => {
  browser = await launchBrowser();
  ({ page, complaints } = await openPage(browser));
});
afterAll(async () => browser?.close());

const strip = () => page.getByRole('region', { name: 'Setups' });
const cards = () => strip().getByRole('radio').allTextContents();
const shown = () => strip().getByRole('radio', { checked: true }).textContent();
const topChoice = () => page.getByRole('combobox', { name: 'Setup' }).inputValue();

/** One page, step after step. */
describe('the strip of setups', () => {
  it('has the base and the setups in shooting order, and shows everywhere what is pressed', async () => {
    expect(await cards()).toEqual([
      'Base',
      '1aBacklight only',
      '1bThick haze',
      '2Colder, key down a stop',
      '3Clear of white glints',
      '4Edges from the second boat, thin haze',
      '5Window shafts in the air',
    ]);
    await strip()
      .getByRole('radio', { name: /Thick haze/ })
      .click();
    expect(await topChoice()).toBe('1b');
    await strip().getByRole('button', { name: '1 change' }).click();
    await page.getByText('Visibility 300 m, in the base 1200 m').waitFor();
    await page.keyboard.press('Escape');
  });

  it('shows the other one while a key is held', async () => {
    await strip()
      .getByRole('radio', { name: /Thick haze/ })
      .focus();
    await page.keyboard.down('o');
    expect(await shown()).toBe('Base');
    await page.keyboard.up('o');
    expect(await shown()).toBe('1bThick haze');
  });

  it('is put in another order by keys, in a step that undo takes back', async () => {
    await strip()
      .getByRole('radio', { name: /Thick haze/ })
      .press('Alt+ArrowLeft');
    expect((await cards()).slice(0, 3)).toEqual(['Base', '1bThick haze', '1aBacklight only']);
    await page.keyboard.press('Control+z');
    expect((await cards()).slice(0, 3)).toEqual(['Base', '1aBacklight only', '1bThick haze']);
  });

  it('gains a setup with the changes of what is shown, which takes a name and goes again', async () => {
    await strip().getByRole('button', { name: 'New' }).click();
    expect(await shown()).toBe('setup-1Setup 1');
    await strip().getByRole('button', { name: '1 change' }).waitFor();
    await strip().getByRole('radio', { checked: true }).press('F2');
    await page.getByRole('textbox', { name: 'Name' }).fill('Fog bank');
    await page.keyboard.press('Enter');
    await strip()
      .getByRole('radio', { name: /Fog bank/, checked: true })
      .waitFor();
    await strip().getByRole('button', { name: 'More' }).click();
    await page.getByRole('menuitem', { name: 'Remove' }).click();
    await strip()
      .getByRole('radio', { name: /Thick haze/, checked: true })
      .waitFor();
    expect((await cards()).length).toBe(7);
  });

  it('builds the light up one lamp at a time, brightest at the mark first', {
    timeout: 120_000,
  }, async () => {
    await strip().getByRole('radio', { name: 'Base' }).click();
    await page.locator('.stop-rule[aria-busy=false]').waitFor({ timeout: 60_000 });
    await strip().getByRole('button', { name: 'More' }).click();
    await page.getByRole('menuitem', { name: 'One lamp at a time' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('Brightest at Ada, face first').waitFor();
    const steps = await dialog.getByRole('listitem').allTextContents();
    expect(steps.length).toBe(6);
    expect(steps[0]).toContain('Sky alone');
    expect(steps[1]).toContain('Key, second boat');
    expect(steps.at(-1)).toMatch(/so far \+0⅓ stop ±0\.5, 210 lx$/);
    await dialog.getByText('1 of 6 frames').waitFor({ timeout: 60_000 });
    await dialog.getByRole('button', { name: 'Close' }).click();
  });

  it('has all setups side by side for a contact sheet, each with its readings and what it changes', {
    timeout: 200_000,
  }, async () => {
    await strip().getByRole('button', { name: 'More' }).click();
    await page.getByRole('menuitem', { name: 'Contact sheet of all setups' }).click();
    const dialog = page.getByRole('dialog', { name: 'All setups' });
    const setups = await dialog.getByRole('listitem').allTextContents();
    expect(setups).toHaveLength(7);
    expect(setups[0]).toContain('As the scene stands without a setup.');
    expect(setups[2]).toMatch(/^1b · Thick haze.*Haze: Visibility 300 m, in the base 1200 m$/);
    expect(await dialog.getByRole('button', { name: 'Save contact sheet' }).isDisabled()).toBe(true);
    // The base reads what the stop rule reads; what the figures mean is said once, under all of them.
    await dialog.getByRole('row', { name: 'Ada, face +0⅓ ±0.5' }).first().waitFor({ timeout: 150_000 });
    expect(await dialog.getByText('Zero of the camera: flat 125 lx (C 250)').count()).toBe(1);
    await dialog.getByRole('button', { name: 'Close' }).click();
  });

  it('makes no complaint', () => {
    expect(complaints).toEqual([]);
  });
});
