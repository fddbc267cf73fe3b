import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshNumbers, launchBrowser, openPage, openPanel } from './support/open-page.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const THINGS = ['face and rim', 'boat', 'backlight', 'key', 'generator', 'light haze'];

describe('a small scene', () => {
  it('is built by keyboard alone, read, and taken back', async () => {
    const { page, context, complaints } = await openPage(browser);
    // A new scene brings the panel that it is built with.
    await page.keyboard.press('Alt+Shift+N');
    const build = page.getByRole('region', { name: 'Build' });
    const search = build.getByRole('combobox', { name: 'Things to add' });
    const steps = build.getByRole('list', { name: 'First steps' });
    await steps.waitFor();
    const lacking = ['Add a figure', 'Add the backlight'];
    expect(await steps.getByRole('button').allTextContents()).toEqual(lacking);

    await search.focus();
    for (const thing of THINGS) {
      await page.keyboard.type(thing);
      await page.keyboard.press('Enter');
    }
    await steps.waitFor({ state: 'detached' });
    await freshNumbers(page);
    // What was added, the lamp far back too, is on the sheet.
    const sheet = (await page.locator('.plan-svg').boundingBox())!;
    for (const lamp of await page.locator('.plan-lamp .plan-plate').all()) {
      const { x, y } = (await lamp.boundingBox())!;
      expect(x).toBeGreaterThan(sheet.x);
      expect(x).toBeLessThan(sheet.x + sheet.width);
      expect(y).toBeGreaterThan(sheet.y);
      expect(y).toBeLessThan(sheet.y + sheet.height);
    }
    const needles = page.locator('.stop-rule [data-needle]');
    const marks = await needles.evaluateAll((all) => all.map((one) => one.getAttribute('data-needle')));
    expect([...new Set(marks)].sort()).toEqual(['figure-1-face', 'figure-1-rim']);

    // The haze is chosen, and a filter wants a lamp.
    await page.keyboard.type('half blue');
    await page.keyboard.press('Enter');
    await build.getByText('Half blue: choose a lamp first.').waitFor();

    await build.getByRole('tab', { name: 'Add' }).focus();
    await page.keyboard.press('ArrowRight');
    await build.getByRole('textbox', { name: 'At', exact: true }).fill('12 ft');
    await page.keyboard.press('Enter');
    await freshNumbers(page);

    await build.getByRole('tab', { name: 'Camera' }).focus();
    await page.keyboard.press('ArrowLeft');
    await search.focus();
    for (let step = 0; step <= THINGS.length; step++) await page.keyboard.press('Control+z');
    await steps.waitFor();
    expect(await steps.getByRole('button').allTextContents()).toEqual(lacking);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('a set that is begun', () => {
  it('is on the plan with the first thing, which is one press from its size, and plugged in by another', {
    timeout: 90_000,
  }, async () => {
    const { page, context, complaints } = await openPage(browser);
    await page.keyboard.press('Alt+Shift+N');
    const build = page.getByRole('region', { name: 'Build' });
    const search = build.getByRole('combobox', { name: 'Things to add' });
    await search.fill('quay');
    await search.press('Enter');
    await build.getByText('Platform is in the scene.').waitFor();
    const sheet = (await page.locator('.plan-svg').boundingBox())!;
    const quay = (await page.locator('.plan-svg [data-thing=platform]').first().boundingBox())!;
    expect(quay.x).toBeGreaterThan(sheet.x);
    expect(quay.x + quay.width).toBeLessThan(sheet.x + sheet.width);
    expect(quay.y).toBeGreaterThan(sheet.y);

    await build.getByRole('button', { name: 'Adjust it' }).click();
    await page.getByRole('textbox', { name: 'Size along x, metres' }).fill('30 m');
    await page.keyboard.press('Enter');
    await openPanel(page, 'Build');
    await build.getByRole('button', { name: 'Add the backlight' }).click();
    await build.getByText('Backlight is in the scene.').waitFor();

    await openPanel(page, 'Power');
    const power = page.getByRole('region', { name: 'Power', exact: true });
    await power.getByText(/^No supply for Backlight/).waitFor();
    await power.getByRole('button', { name: 'Add a socket' }).click();
    await power.getByText('Socket', { exact: true }).first().waitFor();
    await power.getByRole('button', { name: 'Add a socket' }).waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('the windows of a vehicle', () => {
  it('are dragged as one step, as far as they fit', async () => {
    const { page, context } = await openPage(browser);
    await openPanel(page, 'Build');
    const build = page.getByRole('region', { name: 'Build' });
    await build.getByRole('tab', { name: 'Vehicle' }).click();
    await build.getByRole('button', { name: 'Second boat, behind the camera' }).click();
    await build.getByRole('radio', { name: 'Left' }).click();
    const row = build.getByRole('button', { name: 'Windows, row 1: 4' });
    await row.focus();
    const first = build.getByRole('textbox', { name: 'First at, metres' });
    expect(await first.inputValue()).toBe('1.4');
    const { x, y } = (await row.boundingBox())!;
    await page.mouse.move(x + 20, y + 15);
    await page.mouse.down();
    await page.mouse.move(x + 420, y + 15, { steps: 4 });
    await page.mouse.up();
    // Derived: four of 2.2 m, 3 m apart, reach 11.2 m, in a wall that ends 0.06 m before 14 m.
    expect(await first.inputValue()).toBe('2.74');
    await row.focus();
    await page.keyboard.press('Control+z');
    expect(await first.inputValue()).toBe('1.4');
    await context.close();
  });
});
