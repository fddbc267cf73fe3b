import { readFileSync } from 'node:fs';
import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import {
  chooseInMenu,
  dropFiles,
  launchBrowser,
  leaveTourOut,
  saveAsDownload,
  savedFile,
} from './support/open-page.ts';
import { tetrahedronGlb } from './support/tetrahedron-glb.ts';

const SMALL = readFileSync('scenes/lamp-and-card.json', 'utf8');
const SMALL_TITLE = 'One lamp, one card';
const PATIENCE_ms = 20_000;
const PHOTOMETRY = 'tests/fixtures/photometry';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** Nothing here looks at what is drawn, and drawing in software takes seconds. */
function drawNothing(): void {
  HTMLCanvasElement.prototype.getContext = () => null;
  OffscreenCanvas.prototype.getContext = () => null;
  Reflect.deleteProperty(HTMLCanvasElement.prototype, 'transferControlToOffscreen');
}

/** One more tab of the same visitor. */
async function newTab(context: BrowserContext, fragment = ''): Promise<Page> {
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE_ms);
  await page.addInitScript(saveAsDownload);
  await page.addInitScript(drawNothing);
  await page.addInitScript(leaveTourOut);
  await page.goto(`${inject('pageUrl')}${fragment}`);
  await page.locator('.document-status').waitFor();
  return page;
}

/** The first tab of a new visitor. */
async function newVisitor() {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  return { context, page: await newTab(context) };
}

async function titled(page: Page, title: string): Promise<void> {
  await page.waitForFunction((wanted) => document.querySelector('h1')?.textContent === wanted, title);
}

async function openSmall(page: Page): Promise<void> {
  await dropFiles(page, [{ name: 'small.json', content: SMALL }]);
  await titled(page, SMALL_TITLE);
}

/** An edit that needs nothing but the document's own part of the page. */
async function addRock(page: Page): Promise<void> {
  const undo = page.getByRole('button', { name: 'Undo' });
  const before = await undo.getAttribute('title');
  await dropFiles(page, [{ name: 'rock.glb', content: tetrahedronGlb() }]);
  await expect
    .poll(() => undo.getAttribute('title'), { interval: 20, timeout: PATIENCE_ms })
    .not.toBe(before);
}

async function allKept(page: Page): Promise<void> {
  await page.locator('.document-status[data-kept=true]').waitFor();
}

async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: typeof axe }).axe.run('body'),
  );
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`,
  );
}

describe('a document', () => {
  it('survives the death of its tab to the byte, its meshes included', async () => {
    const { page, context } = await newVisitor();
    await openSmall(page);
    await addRock(page);
    const { text } = await savedFile(page);
    await allKept(page);
    const dead = new Promise((done) => page.once('crash', done));
    page.goto('chrome://crash').catch(() => {});
    await dead;
    const next = await newTab(context);
    await titled(next, SMALL_TITLE);
    expect((await savedFile(next)).text).toBe(text);
    expect(await next.getByRole('alert').textContent()).toBe('');
    expect(await next.getByText('open in another tab').count()).toBe(0);
    await context.close();
  });

  it('is undone fifty steps to the byte, one by one or at once, and the steps have names', async () => {
    const { page, context } = await newVisitor();
    await openSmall(page);
    const { text } = await savedFile(page);
    for (let i = 0; i < 50; i++) await addRock(page);
    const { text: edited } = await savedFile(page);
    expect(edited).not.toBe(text);
    for (let i = 0; i < 50; i++) await page.keyboard.press('Control+z');
    expect((await savedFile(page)).text).toBe(text);
    await page.getByRole('button', { name: 'Steps' }).click();
    const redo = page.getByRole('menuitem', { name: /^Add rock/ });
    expect(await redo.first().textContent()).toBe('Add rock 20');
    await redo.first().click();
    expect(JSON.parse((await savedFile(page)).text).solids).toHaveLength(21);
    await context.close();
  });

  it('is told apart between two tabs: seen, copied, taken over', async () => {
    const { page: first, context } = await newVisitor();
    await openSmall(first);
    await addRock(first);
    await allKept(first);
    const second = await newTab(context);
    await second.getByText('This scene is open in another tab').waitFor();
    await addRock(second);
    await second.getByText('This is a copy from here on').waitFor();
    await allKept(second);

    const third = await newTab(context);
    await chooseInMenu(third, 'Kept scenes…');
    await third.getByRole('button', { name: new RegExp(`^${SMALL_TITLE}\\s*today`) }).click();
    await third.getByRole('button', { name: 'Take it over here' }).click();
    await first.getByText('Another tab took this scene over').waitFor();
    await third.getByText('This scene is open in another tab').waitFor({ state: 'detached' });
    expect((await savedFile(third)).text).toBe((await savedFile(first)).text);
    await addRock(first);
    await first.getByText('This is a copy from here on').waitFor();
    expect(JSON.parse((await savedFile(third)).text).solids).toHaveLength(2);
    await context.close();
  });

  it('travels in a link, and a damaged link is refused with its reason', async () => {
    const { page, context } = await newVisitor();
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await openSmall(page);
    const { text } = await savedFile(page);
    await chooseInMenu(page, 'Copy as a link');
    await page.getByText('Link copied').waitFor();
    const link = await page.evaluate(() => navigator.clipboard.readText());
    const fragment = link.slice(link.indexOf('#'));

    const elsewhere = await browser.newContext();
    const there = await newTab(elsewhere, fragment);
    await titled(there, SMALL_TITLE);
    expect((await savedFile(there)).text).toBe(text);
    expect(new URL(there.url()).hash).toBe('');
    await allKept(there);
    for (const bad of [fragment.slice(0, 200), '#scene=%3Cscript%3E', `#scene=${'A'.repeat(40_000)}`]) {
      await there.evaluate((hash) => {
        location.hash = hash;
      }, bad);
      await there.getByRole('alert').filter({ hasText: 'The scene in the link was not opened' }).waitFor();
      expect(new URL(there.url()).hash).toBe('');
      await there.getByRole('button', { name: 'Dismiss' }).click();
    }
    await titled(there, SMALL_TITLE);
    await elsewhere.close();
    await context.close();
  });

  it('is still worked on where storage is forbidden, and the page says that nothing is kept', async () => {
    const context = await browser.newContext();
    await context.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('not here', 'SecurityError');
      };
    });
    const page = await newTab(context);
    await openSmall(page);
    await page.getByText('This browser does not keep the scene: its storage is off or forbidden').waitFor();
    await addRock(page);
    expect(JSON.parse((await savedFile(page)).text).solids).toHaveLength(2);
    await context.close();
  });

  it('that an earlier version kept is taken over once', async () => {
    const context = await browser.newContext();
    const visit = await context.newPage();
    await visit.goto(inject('pageUrl'));
    await visit.evaluate((text) => localStorage.setItem('keyfall.scene', text), SMALL);
    await visit.close();
    for (const _ of ['first', 'second']) {
      const page = await newTab(context);
      await titled(page, SMALL_TITLE);
      expect(await page.evaluate(() => localStorage.getItem('keyfall.scene'))).toBeNull();
      await page.close();
    }
    await context.close();
  });
});

describe('a photometric file', () => {
  it('is looked at, taken into a new lamp, and undone', async () => {
    const { page, context } = await newVisitor();
    await openSmall(page);
    const { text } = await savedFile(page);
    const content = readFileSync(`${PHOTOMETRY}/synthetic/lambert-C-h0.ies`);
    await dropFiles(page, [{ name: 'lambert.ies', content }]);
    const dialog = page.getByRole('dialog', { name: 'lambert.ies' });
    await dialog.getByRole('img', { name: 'Polar diagram' }).waitFor();
    // derived: I = 1000 cos γ: π·1000 lm, half at 60°, a tenth at 84.3°; 1000/25 = 40 lx at 5 m
    const words = await dialog.textContent();
    for (const expected of ['3140 lm', '1000 cd', '120°', '169°', '40 lx at 5 m', '±⅔ stop'])
      expect(words).toContain(expected);
    expect(await accessibilityFaults(page)).toEqual([]);
    await dialog.getByRole('radio', { name: 'a new lamp' }).check();
    await dialog.getByRole('button', { name: 'Take it in' }).click();
    await dialog.waitFor({ state: 'detached' });
    const taken = JSON.parse((await savedFile(page)).text);
    expect(taken.lamps).toHaveLength(2);
    expect(Object.keys(taken.heads)).toContain(taken.lamps[1].head);
    await page.keyboard.press('Control+z');
    expect((await savedFile(page)).text).toBe(text);
    await context.close();
  });

  it('that is broken says where, and how to mend it', async () => {
    const { page, context } = await newVisitor();
    const content = readFileSync(`${PHOTOMETRY}/broken/b05-word-in-number.ies`);
    await dropFiles(page, [{ name: 'b05.ies', content }]);
    const dialog = page.getByRole('dialog', { name: 'b05.ies' });
    await dialog.getByRole('alert').waitFor();
    expect(await dialog.getByRole('alert').textContent()).toMatch(/^Line \d+: found/);
    expect(await accessibilityFaults(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Leave it' }).click();
    await dialog.waitFor({ state: 'detached' });
    await chooseInMenu(page, 'Kept scenes…');
    await page.getByRole('dialog', { name: 'Scenes kept in this browser' }).waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    await context.close();
  });
});
