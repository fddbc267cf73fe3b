import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dragFingers, type Fingers, fingersOn, type Place } from './support/fingers.ts';
import { drawnView, freshNumbers, launchBrowser, openPage, settled } from './support/open-page.ts';

/** Of a ten-inch tablet, either way up. */
const TABLETS = [
  [1080, 810],
  [810, 1080],
] as const;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

describe.each(TABLETS)(
  'by touch alone, on a tablet %d wide and %d high',
  { timeout: 120_000 },
  (width, height) => {
    let page: Page;
    let context: BrowserContext;
    let complaints: string[];
    let fingers: Fingers;
    beforeAll(async () => {
      ({ page, context, complaints } = await openPage(browser, { width, height, touch: true }));
      fingers = await fingersOn(page);
    });
    afterAll(() => context.close());

    const sheet = () => page.locator('.plan-svg');
    const rim = () => sheet().getByRole('button', { name: 'Small rim, lamp' });
    const words = () => rim().getAttribute('aria-label');

    it('a lamp is chosen on the plan, dragged, and put back', async () => {
      const before = await words();
      expect(await rim().getAttribute('aria-pressed')).toBe('false');
      const at = await middleOf(rim().locator('.plan-plate'));
      await page.touchscreen.tap(at.x, at.y);
      expect(await rim().getAttribute('aria-pressed')).toBe('true');
      expect(await words()).toBe(before);

      await dragFingers(fingers, [at], [{ x: at.x + 50, y: at.y + 24 }]);
      expect(await words()).not.toBe(before);
      expect(await words()).toContain('height 2.6 m');
      await freshNumbers(page);
      await page.getByRole('button', { name: 'Undo' }).tap();
      expect(await words()).toBe(before);
      expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    });

    it('the plan is pinched larger, and what lay between the fingers stays there', async () => {
      const scale = () => page.locator('.plan-scale text').textContent();
      const before = await scale();
      const plate = rim().locator('.plan-plate');
      const at = await middleOf(plate);
      const beside = (away: number): Place[] => [
        { x: at.x - away, y: at.y },
        { x: at.x + away, y: at.y },
      ];
      await dragFingers(fingers, beside(30), beside(120));
      expect(await scale()).not.toBe(before);
      const after = await middleOf(plate);
      expect(Math.hypot(after.x - at.x, after.y - at.y)).toBeLessThan(3);
    });

    it('a finger that rests on the frame reads the spot meter', async () => {
      const at = await middleOf(page.locator('.spot-area'));
      await fingers.down(at);
      await page.getByTestId('spot').getByText('stops from middle grey').waitFor();
      await fingers.up();
      expect(await page.getByTestId('spot').textContent()).toMatch(/cd\/m² ±\d\.\d/);
    });

    it('a panel is opened, something is switched in it, and taken back', async () => {
      await page.getByRole('tab', { name: 'Lamps', exact: true }).tap();
      const lamp = page.getByRole('switch', { name: 'Backlight on' });
      await lamp.tap();
      expect(await lamp.getAttribute('aria-checked')).toBe('false');
      await page.getByRole('button', { name: 'Undo' }).tap();
      expect(await lamp.getAttribute('aria-checked')).toBe('true');
    });

    it('something is added by two taps', async () => {
      await page.getByRole('tab', { name: 'Build', exact: true }).tap();
      const build = page.getByRole('region', { name: 'Build' });
      await build.getByRole('combobox', { name: 'Things to add' }).tap();
      await build
        .getByRole('option', { name: /Bollard|Box/ })
        .first()
        .tap();
      await page.getByRole('button', { name: 'Undo' }).tap();
      expect(complaints).toEqual([]);
    });

    it('the view in three dimensions is moved by one finger and turned by two', async () => {
      const canvas = await drawnView(page);
      const box = (await canvas.boundingBox())!;
      // Where nothing stands to be taken hold of.
      const empty = { x: box.x + 0.16 * box.width, y: box.y + 0.15 * box.height };
      const below = { x: empty.x, y: empty.y + 0.3 * box.height };
      const still = await spread(page);
      await dragFingers(fingers, [empty], [{ x: empty.x + 40, y: empty.y }]);
      const moved = await spread(page);
      await dragFingers(
        fingers,
        [empty, below],
        [
          { x: empty.x + 60, y: empty.y },
          { x: below.x + 60, y: below.y },
        ],
      );
      const turned = await spread(page);
      expect(Math.hypot(moved.at.x - still.at.x, moved.at.y - still.at.y)).toBeGreaterThan(10);
      const change = (one: Place, other: Place) => Math.hypot(one.x - other.x, one.y - other.y);
      expect(change(turned.by, moved.by)).toBeGreaterThan(5 * change(moved.by, still.by));
      expect(change(turned.by, moved.by)).toBeGreaterThan(15);
      expect(complaints).toEqual([]);
    });
  },
);

/** What is meant to be pressed, chosen, typed in or pushed along. */
const TARGETS = [
  'button, input, select, textarea, summary, a[href]',
  ...['button', 'checkbox', 'combobox', 'link', 'menuitem', 'option', 'radio', 'slider', 'switch', 'tab'].map(
    (role) => `[role=${role}]`,
  ),
].join(', ');
const LEAST_px = 44;

/**
 * Targets smaller than a gloved finger. A field is as large as the box it is drawn in, a slider as its whole track: each takes
 * the press. Left out: things on the drawings, which are taken from 26 px round their middle whatever they look like; links
 * within a sentence; what is there for voices alone.
 */
function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(
    ({ targets, least_px }) =>
      [...document.querySelectorAll(targets)]
        .filter((target) => !target.closest('.plan-svg, p a, .out-of-sight'))
        .map((target) => ({
          target,
          box: (target.closest('.typed, .slider, label:has(input)') ?? target).getBoundingClientRect(),
        }))
        // Half a pixel goes in rounding.
        .filter(({ box }) => box.width > 0 && Math.min(box.width, box.height) < least_px - 0.5)
        .map(
          ({ target, box }) =>
            `${target.getAttribute('aria-label') ?? target.textContent} (${target.className}): ${Math.round(box.width)} × ${Math.round(box.height)}`,
        ),
    { targets: TARGETS, least_px: LEAST_px },
  );
}

describe.each(TABLETS)('for a gloved finger, on a tablet %d wide and %d high', (width, height) => {
  it('every target of the desk, its panels, menus and dialogs is 44 pixels wide and high', {
    timeout: 180_000,
  }, async () => {
    const { page, context } = await openPage(browser, { width, height, touch: true });
    const small: Record<string, string[]> = {};
    const look = async (where: string) => {
      await settled(page);
      small[where] = await smallTargets(page);
    };
    await look('desk');
    const tabs = page.getByRole('tablist', { name: 'Panels' }).getByRole('tab');
    for (const name of await tabs.allTextContents()) {
      await tabs.filter({ hasText: name }).first().tap();
      await look(name);
    }
    for (const menu of ['File', 'Units', 'Over it']) {
      await page.getByRole('button', { name: new RegExp(`^${menu}`) }).tap();
      await page.getByRole('menu').waitFor();
      await look(`menu ${menu}`);
      await page.keyboard.press('Escape');
    }
    for (const opener of ['Commands', 'Export…']) {
      await page.getByRole('button', { name: opener, exact: true }).tap();
      await page.getByRole('dialog').waitFor();
      await look(opener);
      await page.keyboard.press('Escape');
    }
    await page.getByRole('tab', { name: '3D', exact: true }).tap();
    await page.locator('.view canvas').waitFor();
    await look('3D');
    expect(Object.keys(small).length).toBeGreaterThan(15);
    expect(Object.entries(small).filter(([, found]) => found.length > 0)).toEqual([]);
    await context.close();
  });
});

describe('for a gloved finger, on a page as low as 1024 × 700', () => {
  it('a needle is taken from 21 px over its middle, where its lane is lower than a finger', {
    timeout: 90_000,
  }, async () => {
    const { page, context } = await openPage(browser, { width: 1024, height: 700, touch: true });
    const needles = page.locator('.stop-rule .needle');
    const boxes = await needles.evaluateAll((all) =>
      all.map((one) => ({ id: one.getAttribute('data-needle')!, y: one.getBoundingClientRect().y })),
    );
    // The highest: no other is over it.
    const { id } = boxes.reduce((high, one) => (one.y < high.y ? one : high));
    const needle = page.locator(`[data-needle="${id}"]`);
    expect(await needle.getAttribute('aria-selected')).toBe('false');
    const box = (await needle.boundingBox())!;
    expect(box.height).toBeLessThan(LEAST_px);
    await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2 - LEAST_px / 2 + 1);
    expect(await needle.getAttribute('aria-selected')).toBe('true');
    await context.close();
  });
});

async function middleOf(part: Locator): Promise<Place> {
  const { x, y, width, height } = (await part.boundingBox())!;
  return { x: x + width / 2, y: y + height / 2 };
}

/** Where one end of the quay is drawn, and how far from it the other is. */
async function spread(page: Page): Promise<{ at: Place; by: Place }> {
  await settled(page);
  return page.evaluate(() => {
    const at = window.keyfallPlaceOf!(-10, 0, 0);
    const other = window.keyfallPlaceOf!(10, 0, 0);
    return { at, by: { x: other.x - at.x, y: other.y - at.y } };
  });
}
