import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { preview } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  drawnView,
  dropFiles,
  freshNumbers,
  holdFrame,
  launchBrowser,
  leaveTourOut,
  openPage,
  openPanel,
  readingsOn,
} from './support/open-page.ts';
import { makeSecondBuild } from './support/second-build.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const ANSWERS = [
  'Glints',
  'Separation',
  'Lens and shutter',
  'Walk',
  'Power',
  'Stands in wind',
  'Night sky',
  'Meter back',
];
/** The slowest answers take seconds on a busy machine. */
const PATIENCE_ms = 60_000;

/** Run in the page before its own code: keeps what the page's policy has refused. */
function watchPolicy(): void {
  const refused: string[] = [];
  Object.assign(window, { refused });
  document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
    refused.push(`${violatedDirective} ${blockedURI}`),
  );
}

const refusedOn = (page: Page) =>
  page.evaluate(() => (window as unknown as { refused: readonly string[] }).refused);

/** Until the browser has kept the whole page, and serves it. */
async function kept(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (navigator.serviceWorker.controller) return;
    await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done));
  });
}

describe('the built page', () => {
  it('does everything for the first time without a network, after one visit, and opens again', {
    timeout: 300_000,
  }, async () => {
    const { page, context, complaints } = await openPage(browser, { before: watchPolicy });
    await kept(page);
    await context.setOffline(true);

    const before = await readingsOn(page);
    for (const name of ANSWERS) {
      const panel = await openPanel(page, name);
      await panel.locator('[data-answer][data-state=fresh]').first().waitFor({ timeout: PATIENCE_ms });
    }
    await openPanel(page, 'Build');
    await drawnView(page);
    await page.getByRole('tab', { name: 'Plan', exact: true }).click();
    await page.getByRole('button', { name: 'Export…' }).click();
    await page.getByRole('dialog', { name: 'Export the frame' }).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+k');
    await page.getByRole('dialog', { name: 'Commands' }).waitFor();
    await page.keyboard.press('Escape');

    await openPanel(page, 'Lamps');
    await page.getByRole('switch', { name: 'Key, second boat on' }).click();
    expect(await readingsOn(page)).not.toEqual(before);
    const content = await readFile('scenes/loading-dock.json');
    await dropFiles(page, [{ name: 'loading-dock.json', content }]);
    await page.getByRole('heading', { level: 1, name: 'Night shift' }).waitFor();
    await freshNumbers(page);
    const dock = await readingsOn(page);
    expect(await refusedOn(page)).toEqual([]);
    expect(complaints).toEqual([]);

    await page.reload();
    await page.getByRole('heading', { level: 1, name: 'Night shift' }).waitFor();
    expect(await readingsOn(page)).toEqual(dock);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('runs no text as code and asks nobody else for anything', async () => {
    const { page, context } = await openPage(browser, { before: watchPolicy });
    const ran = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.ranText = true';
      document.head.append(script);
      const answer = await fetch('https://example.org/').catch(() => null);
      return { text: 'ranText' in window, answer: answer !== null };
    });
    expect(ran).toEqual({ text: false, answer: false });
    expect(await refusedOn(page)).toEqual(['script-src-elem inline', 'connect-src https://example.org/']);
    await context.close();
  });
});

describe('a newer build', () => {
  const folder = mkdtempSync(join(tmpdir(), 'keyfall-builds-'));
  let context: BrowserContext;
  let server: Awaited<ReturnType<typeof preview>>;
  beforeAll(async () => {
    cpSync('dist/page', folder, { recursive: true });
    server = await preview({
      build: { outDir: folder },
      logLevel: 'warn',
      preview: { port: 0, strictPort: false, host: '127.0.0.1' },
    });
    context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    await context.addInitScript(holdFrame);
    await context.addInitScript(leaveTourOut);
  });
  afterAll(async () => {
    await context?.close();
    await server?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const visit = async (): Promise<Page> => {
    const page = await context.newPage();
    page.setDefaultTimeout(PATIENCE_ms);
    const { port } = server.httpServer.address() as { port: number };
    await page.goto(`http://127.0.0.1:${port}/`);
    await freshNumbers(page);
    return page;
  };
  const builtSecond = (page: Page) => page.locator('meta[name=build][content=second]').count();
  const notice = (page: Page) => page.getByText('A newer Keyfall is ready. To have it, close every tab');

  it('waits for the last page of the old one, which goes on as it was and says so', {
    timeout: 240_000,
  }, async () => {
    const first = await visit();
    await kept(first);
    expect(await notice(first).count()).toBe(0);
    makeSecondBuild(folder);

    // Another visit finds the newer build, and is served the old one all the same.
    const second = await visit();
    await notice(second).waitFor();
    await notice(first).waitFor();
    expect(await builtSecond(second)).toBe(0);
    // What the open page had not loaded yet is gone from the server, and comes from what was kept.
    const glints = await openPanel(first, 'Glints');
    await glints.locator('[data-answer][data-state=fresh]').first().waitFor();
    await second.getByRole('button', { name: 'Later' }).click();
    expect(await notice(second).count()).toBe(0);

    await first.close();
    await second.reload();
    await freshNumbers(second);
    expect(await builtSecond(second)).toBe(0);
    await notice(second).waitFor();

    await second.close();
    // The browser changes over when it has seen the last page go.
    await expect
      .poll(
        async () => {
          const page = await visit();
          const isSecond = await builtSecond(page);
          const said = await notice(page).count();
          await page.close();
          return { isSecond, said };
        },
        { timeout: PATIENCE_ms, interval: 500 },
      )
      .toEqual({ isSecond: 1, said: 0 });
  });
});
