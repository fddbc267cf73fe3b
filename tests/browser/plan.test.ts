import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser, openPage, openPanel, settled } from './support/open-page.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** A thing on the drawing, as a voice reads it out. */
function thing(page: Page, name: string) {
  return page.locator('.plan-svg').getByRole('button', { name });
}

/** Where a lamp's sign is drawn on the screen. */
async function placeOf(page: Page, name: string): Promise<{ x: number; y: number }> {
  const plate = await thing(page, name).locator('.plan-plate').boundingBox();
  if (!plate) throw new Error(`${name} is not drawn`);
  return { x: plate.x + plate.width / 2, y: plate.y + plate.height / 2 };
}

describe('the plan', () => {
  it('is measured by hand and by keys: a lamp dragged, nudged, doubled, hidden, all of it undone', async () => {
    const { page, context, complaints } = await openPage(browser);
    await page.locator('.plan-svg').waitFor();
    const before = await thing(page, 'Small rim, lamp').getAttribute('aria-label');
    expect(before).toBe('Small rim, lamp, x 5.5 m, z 1.8 m, height 2.6 m');

    const { x, y } = await placeOf(page, 'Small rim, lamp');
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let step = 1; step <= 4; step++) {
      await page.mouse.move(x + 10 * step, y + 5 * step);
      await settled(page);
    }
    await page.mouse.up();
    const dragged = await thing(page, 'Small rim, lamp').getAttribute('aria-label');
    expect(dragged).not.toBe(before);
    expect(dragged).toContain('height 2.6 m');
    expect(await thing(page, 'Small rim, lamp').getAttribute('aria-pressed')).toBe('true');

    // The focus is on what was dragged: keys go on where the hand left off.
    await page.keyboard.press('PageUp');
    expect(await thing(page, 'Small rim, lamp').getAttribute('aria-label')).toContain('height 2.65 m');
    await page.keyboard.press('Control+d');
    await thing(page, 'Small rim 2, lamp').waitFor();
    for (let step = 0; step < 3; step++) await page.keyboard.press('Control+z');
    expect(await thing(page, 'Small rim, lamp').getAttribute('aria-label')).toBe(before);
    expect(await thing(page, 'Small rim 2, lamp').count()).toBe(0);

    await page.getByRole('tab', { name: 'Elevation x' }).click();
    await thing(page, 'Small rim, lamp').waitFor();
    await page.getByRole('tab', { name: 'Plan', exact: true }).click();

    await page.getByRole('button', { name: 'Kinds', exact: true }).click();
    await page.getByRole('switch', { name: /^Marks .* drawn$/ }).click();
    await page.keyboard.press('Escape');
    expect(await thing(page, 'Ada, face, mark').count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('hints at what is in hand, measures from a place that is typed, and finds the page as it was left', async () => {
    const { page, context, complaints } = await openPage(browser);
    await openPanel(page, 'Build');
    await page.getByText('Where I press').click();
    await page.getByPlaceholder(/^Search/).fill('bus');
    await page.getByRole('option', { name: /^Bus/ }).click();
    const sheet = (await page.locator('.plan-svg').boundingBox())!;
    const ghost = page.locator('.plan-ghost-body');
    expect(await ghost.count()).toBe(0);
    await page.mouse.move(sheet.x + 0.6 * sheet.width, sheet.y + 0.7 * sheet.height);
    await ghost.waitFor();
    const near = await ghost.getAttribute('d');
    await page.mouse.move(sheet.x + 0.4 * sheet.width, sheet.y + 0.5 * sheet.height);
    await settled(page);
    expect(await ghost.getAttribute('d')).not.toBe(near);
    await page.keyboard.press('Escape');
    await ghost.waitFor({ state: 'detached' });

    await thing(page, 'Small rim, lamp').press('m');
    await page.getByLabel('Measured from x').fill('2m');
    await page.getByLabel('Measured from x').press('Enter');
    await page.getByLabel('Measured from z').fill('1.8');
    await page.getByLabel('Measured from z').press('Enter');
    await thing(page, 'Small rim, lamp').press(' ');
    // Derived: the rim stands at x 5.5 m, 2.6 m up, z 1.8 m.
    await page.getByText('Δx +3.5 m, Δz 0 m, height +2.6 m').waitFor();
    await page.getByRole('button', { name: 'Done' }).click();
    expect(await page.locator('.plan-measure').count()).toBe(0);

    await page.reload();
    await page.getByText('Where I press').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
