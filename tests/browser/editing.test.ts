import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  chooseInMenu,
  drawnView,
  dropFiles,
  figureOf,
  freshNumbers,
  launchBrowser,
  openPage,
  readingsOn,
  settled,
} from './support/open-page.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** Presses at one point of the scene and lets go at another, as far as the pointer was moved on the screen. */
async function dragBy(
  page: Page,
  point_m: readonly [number, number, number],
  dx: number,
  dy: number,
  keys?: 'Shift',
) {
  const place = await page.evaluate((p) => window.keyfallPlaceOf!(...p), point_m as [number, number, number]);
  if (keys) await page.keyboard.down(keys);
  await page.mouse.move(place.x, place.y);
  await page.mouse.down();
  for (let step = 1; step <= 5; step++) {
    await page.mouse.move(place.x + (dx * step) / 5, place.y + (dy * step) / 5);
    await settled(page);
  }
  return async () => {
    await page.mouse.up();
    if (keys) await page.keyboard.up(keys);
    await freshNumbers(page);
  };
}

function typed(page: Page, label: string) {
  return page.getByRole('textbox', { name: `${label}, metres` });
}

async function chooseLamp(page: Page, name: string): Promise<[number, number, number]> {
  await page.locator('.lamp-name', { hasText: name }).click();
  const place: number[] = [];
  for (const label of ['Stand x', 'Height', 'Stand z'])
    place.push(Number(await typed(page, label).inputValue()));
  return place as [number, number, number];
}

describe('a lamp', () => {
  it('follows the pointer over the ground, its numbers with it, and comes back in one step', async () => {
    const { page, context, complaints } = await openPage(browser);
    await drawnView(page);
    const before = await readingsOn(page);
    const [x, y, z] = await chooseLamp(page, 'Small rim');
    const letGo = await dragBy(page, [x, y, z], 60, 20);
    // While it moves, numbers are of straight light and say so.
    await page.locator('[data-testid=figures][data-state=moving]').waitFor();
    expect(await page.getByTestId('freshness').textContent()).toContain('straight light only');
    await letGo();
    expect(Number(await typed(page, 'Stand x').inputValue())).toBeGreaterThan(x + 0.3);
    expect(Number(await typed(page, 'Height').inputValue())).toBe(y);
    const after = await readingsOn(page);
    expect(after).not.toEqual(before);
    expect(await page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(true);
    await page.keyboard.press('Control+z');
    expect(await readingsOn(page)).toEqual(before);
    expect(await page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(false);
    await page.keyboard.press('Control+Shift+z');
    expect(await readingsOn(page)).toEqual(after);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('goes up by its knob and, with Shift, by itself, and only up', async () => {
    const { page, context } = await openPage(browser);
    await drawnView(page);
    const [x, y, z] = await chooseLamp(page, 'Small rim');
    await (await dragBy(page, [x, y, z], 25, -30, 'Shift'))();
    const higher = Number(await typed(page, 'Height').inputValue());
    expect(higher).toBeGreaterThan(y + 0.2);
    expect(Number(await typed(page, 'Stand x').inputValue())).toBe(x);
    expect(Number(await typed(page, 'Stand z').inputValue())).toBe(z);
    await settled(page);
    const place = await page.evaluate((p) => window.keyfallPlaceOf!(...p), [x, higher, z] as [
      number,
      number,
      number,
    ]);
    await page.mouse.move(place.x, place.y - 46);
    await page.mouse.down();
    await page.mouse.move(place.x, place.y - 26, { steps: 4 });
    await page.mouse.up();
    expect(Number(await typed(page, 'Height').inputValue())).toBeLessThan(higher - 0.1);
    await context.close();
  });

  it('is aimed by its cross', async () => {
    const { page, context } = await openPage(browser);
    await drawnView(page);
    const lamp = await chooseLamp(page, 'Small rim');
    const aim: number[] = [];
    for (const label of ['Aim x', 'Aim y', 'Aim z']) aim.push(Number(await typed(page, label).inputValue()));
    await (await dragBy(page, aim as [number, number, number], -50, 0))();
    expect(Number(await typed(page, 'Aim x').inputValue())).toBeLessThan(aim[0]! - 0.3);
    expect(Number(await typed(page, 'Aim y').inputValue())).toBe(aim[1]);
    expect(await chooseLamp(page, 'Small rim')).toEqual(lamp);
    await context.close();
  });

  it('is chosen by pressing it in the drawing', async () => {
    const { page, context } = await openPage(browser);
    await drawnView(page);
    const place = await chooseLamp(page, 'Cabin, window shafts');
    await chooseLamp(page, 'Backlight');
    await settled(page);
    const at = await page.evaluate((p) => window.keyfallPlaceOf!(...p), place);
    await page.mouse.click(at.x, at.y);
    await page.getByRole('heading', { name: 'Cabin, window shafts' }).waitFor();
    expect(await page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(false);
    await context.close();
  });

  it('changes its level by the keyboard alone, and every key is one step back', async () => {
    const { page, context } = await openPage(browser);
    const before = await readingsOn(page);
    const slider = page.getByRole('slider', { name: 'Level' });
    await page.locator('body').press('Tab');
    for (let presses = 0; presses < 120; presses++) {
      if (await slider.evaluate((element) => element === document.activeElement)) break;
      await page.keyboard.press('Tab');
    }
    expect(await slider.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.press('ArrowLeft');
    await freshNumbers(page);
    expect(await slider.getAttribute('aria-valuetext')).toBe('99 %, 0 stops');
    await page.keyboard.press('Home');
    await freshNumbers(page);
    expect(await slider.getAttribute('aria-valuetext')).toBe('0 %, −∞ stops');
    expect(await readingsOn(page)).not.toEqual(before);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    expect(await readingsOn(page)).toEqual(before);
    await context.close();
  });

  it('loses a stop of its own light at half level', async () => {
    const { page, context } = await openPage(browser);
    // Derived: level scales linearly. The mark faces the only lamp that reaches it in this scene.
    const content = readFileSync('scenes/lamp-and-card.json', 'utf8');
    await dropFiles(page, [{ name: 'lamp-and-card.json', content }]);
    await page.getByRole('heading', { level: 1, name: 'Last boat' }).waitFor({ state: 'detached' });
    await freshNumbers(page);
    const parts = page.locator('[data-testid=lamp-parts] tr[data-lamp]').first();
    const full = Number(await parts.locator('[data-field=reading]').textContent());
    const level = page.getByRole('textbox', { name: 'Level, percent' });
    const now = Number(await level.inputValue());
    await level.fill(String(now / 2));
    await level.press('Enter');
    await freshNumbers(page);
    const half = Number(await parts.locator('[data-field=reading]').textContent());
    // Both are rounded to three figures.
    expect(half / (full / 2)).toBeGreaterThan(0.99);
    expect(half / (full / 2)).toBeLessThan(1.01);
    await context.close();
  });

  it('goes off and on with its switch', async () => {
    const { page, context } = await openPage(browser);
    const before = await readingsOn(page);
    const key = page.getByRole('switch', { name: 'Key, second boat on' });
    await key.click();
    expect(await key.getAttribute('aria-checked')).toBe('false');
    expect(await readingsOn(page)).not.toEqual(before);
    await key.click();
    expect(await readingsOn(page)).toEqual(before);
    await context.close();
  });

  it('takes figures that are typed, with a comma too, and says why it takes one not', async () => {
    const { page, context } = await openPage(browser);
    const height = typed(page, 'Height');
    await height.fill('2,75');
    await height.press('Enter');
    expect(await height.inputValue()).toBe('2.75');
    await height.fill('4.5');
    await height.press('Enter');
    await page.getByText('Higher than its stand goes (3.8 m)').waitFor();
    const aimX = typed(page, 'Aim x');
    const was = await aimX.inputValue();
    await aimX.fill('20000');
    await aimX.press('Enter');
    await page.getByText('Not changed:').waitFor();
    expect(await aimX.inputValue()).toBe(was);
    await aimX.fill('far');
    await aimX.press('Enter');
    expect(await aimX.inputValue()).toBe(was);
    await context.close();
  });
});

describe('an edit', () => {
  it('is still there when the page is loaded again, and the demo is one step away', async () => {
    const { page, context } = await openPage(browser);
    const demo = await readingsOn(page);
    await page.getByRole('switch', { name: 'Backlight on' }).click();
    const edited = await readingsOn(page);
    await page.reload();
    expect(await readingsOn(page)).toEqual(edited);
    expect(await page.getByRole('switch', { name: 'Backlight on' }).getAttribute('aria-checked')).toBe(
      'false',
    );
    await chooseInMenu(page, 'Open the demo');
    await page.getByRole('switch', { name: 'Backlight on', checked: true }).waitFor();
    expect(await readingsOn(page)).toEqual(demo);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await readingsOn(page)).toEqual(edited);
    await context.close();
  });

  it('is never waited for: of many moves the last one counts', async () => {
    const { page, context } = await openPage(browser);
    const slider = page.getByRole('slider', { name: 'Level' });
    await slider.focus();
    for (let i = 0; i < 40; i++) await page.keyboard.press('ArrowLeft');
    await freshNumbers(page);
    expect(await slider.getAttribute('aria-valuetext')).toBe('60 %, −0⅔ stops');
    const shown = await figureOf(page, 'ada-rim', 'reading').textContent();
    await page.reload();
    await freshNumbers(page);
    expect(await figureOf(page, 'ada-rim', 'reading').textContent()).toBe(shown);
    await context.close();
  });
});

describe('filters and haze', () => {
  it('are put before a lamp and taken away again, and the numbers follow', async () => {
    const { page, context, complaints } = await openPage(browser);
    const before = await readingsOn(page);
    await page.locator('.lamp-name', { hasText: 'Soft fill by camera' }).click();
    await page.getByRole('button', { name: 'Add a filter' }).click();
    await page.getByRole('option', { name: /^Half orange/ }).click();
    await freshNumbers(page);
    expect(await readingsOn(page)).not.toEqual(before);
    // derived: what the library's half orange takes from a 5600 K lamp is about half a stop
    await expect.poll(() => page.getByTestId('stack-cost').textContent()).toMatch(/^−0\.[56]\d stop/);
    await page.getByRole('button', { name: /^Take away / }).click();
    await freshNumbers(page);
    expect(await readingsOn(page)).toEqual(before);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('haze is thickened, taken away and brought back by undo', async () => {
    const { page, context, complaints } = await openPage(browser);
    const before = await readingsOn(page);
    const visibility = page.getByRole('textbox', { name: 'Visibility, metres' });
    await visibility.fill('200');
    await visibility.press('Enter');
    await freshNumbers(page);
    expect(await readingsOn(page)).not.toEqual(before);
    await page.getByRole('switch', { name: 'Haze on' }).click();
    await freshNumbers(page);
    expect(await page.getByRole('textbox', { name: 'Visibility, metres' }).count()).toBe(0);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await freshNumbers(page);
    expect(await readingsOn(page)).toEqual(before);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
