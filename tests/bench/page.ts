import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { saveScene } from '../../src/scene/file/save-scene.ts';
import { dropFiles } from '../browser/support/drop-files.ts';
import { findBrowser } from '../browser/support/find-browser.ts';
import { servePage } from '../browser/support/page-server.ts';
import { largeScene } from './large-scene.ts';
import { meshOf } from './mesh-of.ts';
import { startProbe } from './page-probe.ts';
import { ms, type Row } from './report.ts';

/**
 * The built page in headless Chromium, a window of 1440 × 900, the frame held where it is not asked for. No graphics driver is
 * forced on it: a browser without a card draws the page itself by the processor and keeps the software driver for WebGL, while
 * one that is made to draw the page through that driver takes five times as long.
 */
const FLAGS = ['--no-sandbox', '--enable-unsafe-swiftshader', '--disable-quic'];
const VISITS = 5;
const MOVES = 60;
const UNCHANGED_ms = 5000;
const PATIENCE_ms = 120_000;
const DIST = fileURLToPath(new URL('../../dist/page/', import.meta.url));

/** Runs all that is measured on the page, each under its title. */
export async function benchPage(print: (title: string, rows: readonly Row[]) => void): Promise<void> {
  const { url, close } = await servePage();
  const browser = await chromium.launch({ executablePath: findBrowser(), args: FLAGS });
  try {
    print(
      'The page: first picture, from nothing in the browser to what is seen',
      await firstPicture(browser, url),
    );
    print('The page: what the first picture fetches', firstLoad(await fetchedBy(browser, url)));
    print('The page: while a lamp is dragged on the plan, the frame held', [
      await dragged(browser, url, 'demo', 'back'),
      await dragged(
        browser,
        url,
        '64 lamps, 2 000 solids, 200 marks, 100 000 triangles',
        'lamp-16',
        await largeFiles(),
      ),
    ]);
  } finally {
    await browser.close();
    await close();
  }
}

/** A visitor without a past but for having been shown round, watched by the probe. */
async function visit(browser: Browser, held: boolean): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE_ms);
  // The runner names functions by a helper that the page does not have.
  await page.addInitScript('globalThis.__name = (named) => named;');
  await page.addInitScript(() => localStorage.setItem('keyfall.tour', 'seen'));
  if (held) await page.addInitScript(() => localStorage.setItem('keyfall.frame-held', 'true'));
  await page.addInitScript(startProbe);
  return { context, page };
}

const PARTS = [
  ['plan', 'plan drawn'],
  ['needles', 'needles on the stop rule'],
  ['frame', 'first picture in the frame, coarse'],
] as const;

async function firstPicture(browser: Browser, url: string): Promise<Row[]> {
  const seen: Record<string, number>[] = [];
  for (let i = 0; i < VISITS; i++) {
    const { context, page } = await visit(browser, false);
    await page.goto(url);
    await page.waitForFunction(() => window.probe.first.frame && window.probe.first.needles, undefined, {
      polling: 50,
    });
    seen.push(await page.evaluate(() => window.probe.first));
    await context.close();
  }
  return PARTS.map(([part, what]) => ({
    what,
    [`median of ${VISITS}`]: ms(
      share(
        seen.map((times) => times[part]!),
        0.5,
      ),
    ),
    worst: ms(Math.max(...seen.map((times) => times[part]!))),
  }));
}

/** Names of what is fetched until the first picture is there. */
async function fetchedBy(browser: Browser, url: string): Promise<string[]> {
  const { context, page } = await visit(browser, false);
  const names = new Set<string>();
  page.on('request', (request) => {
    const name = new URL(request.url()).pathname.slice(1) || 'index.html';
    if (existsSync(DIST + name)) names.add(name);
  });
  await page.goto(url);
  await page.waitForFunction(() => window.probe.first.frame, undefined, { polling: 50 });
  await context.close();
  return [...names];
}

function firstLoad(names: readonly string[]): Row[] {
  const size = (name: string) => gzipSync(readFileSync(DIST + name), { level: 9 }).length;
  const rows = names.map((name) => ({ name, bytes: size(name) })).sort((a, b) => b.bytes - a.bytes);
  const later = readdirSync(`${DIST}assets`)
    .map((name) => `assets/${name}`)
    .filter((name) => !names.includes(name));
  const row = (what: string, bytes: number) => ({ file: what, 'kB gzip': (bytes / 1000).toFixed(1) });
  return [
    ...rows.map(({ name, bytes }) => row(name, bytes)),
    row(
      'together',
      rows.reduce((sum, { bytes }) => sum + bytes, 0),
    ),
    row(
      'fetched later or never',
      later.reduce((sum, name) => sum + size(name), 0),
    ),
  ];
}

interface Files {
  readonly title: string;
  readonly files: Parameters<typeof dropFiles>[1];
}

async function largeFiles(): Promise<Files> {
  const document = largeScene(64, 2000, 200);
  const mesh = {
    id: 'rock',
    shape: 'mesh',
    file: 'rock.glb',
    position_m: [0, 0, 0],
    material: 'timber-light',
  } as unknown as NonNullable<typeof document.solids>[number];
  const text = saveScene({ ...document, solids: [...document.solids!, mesh] });
  return {
    title: document.title,
    files: [
      { name: 'large.json', content: text },
      { name: 'rock.glb', content: await meshOf(100_000) },
    ],
  };
}

/** A lamp is dragged round in small steps: each waits for the number that it changes; then as fast as the pointer goes. */
async function dragged(
  browser: Browser,
  url: string,
  what: string,
  lamp: string,
  large?: Files,
): Promise<Row> {
  const { context, page } = await visit(browser, true);
  await page.goto(url);
  await page.locator('.needle').first().waitFor();
  if (large) {
    await dropFiles(page, large.files);
    await page.getByRole('heading', { level: 1, name: large.title }).waitFor();
  }
  await page.locator('.stop-rule[aria-busy=false]').waitFor();
  const sign = page.locator(`.plan-svg [data-thing="${lamp}"] .plan-plate`);
  const plate = (await sign.boundingBox())!;
  const [x, y] = [plate.x + plate.width / 2, plate.y + plate.height / 2];
  const to = (step: number, reach_px: number): [number, number] => [
    x + reach_px * Math.cos(0.7 * step) - reach_px,
    y + reach_px * Math.sin(0.7 * step),
  ];

  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(...to(0.5, 30));
  const waits: number[] = [];
  for (let step = 1; step <= MOVES; step++) {
    await page.evaluate(() => window.probe.expect('pointermove'));
    await page.mouse.move(...to(step, 30));
    // A move that snaps back, or is too small for the last digit, changes no number and counts for nothing.
    await page
      .waitForFunction(() => window.probe.answered !== null, undefined, { polling: 5, timeout: UNCHANGED_ms })
      .catch(() => {});
    const answered = await page.evaluate(() => window.probe.answered);
    if (answered !== null) waits.push(answered);
  }
  if (waits.length < MOVES / 2)
    throw new Error(`only ${waits.length} of ${MOVES} moves of ${lamp} changed a number`);
  await page.evaluate(() => window.probe.countFrames());
  for (let step = 1; step <= 3 * MOVES; step++) {
    await page.mouse.move(...to(step / 4, 30));
    await new Promise((next) => setTimeout(next, 8));
  }
  const frames = await page.evaluate(() => window.probe.framesCounted());
  await page.mouse.up();
  await page.locator('.stop-rule[aria-busy=false]').waitFor();

  const steps: Record<string, number> = {};
  for (const keys of ['Control+z', 'Control+Shift+z']) {
    await page.evaluate(() => window.probe.expect('keydown'));
    await page.keyboard.press(keys);
    await page.waitForFunction(() => window.probe.answered !== null, undefined, { polling: 5 });
    steps[keys] = await page.evaluate(() => window.probe.answered!);
    await page.locator('.stop-rule[aria-busy=false]').waitFor();
  }
  const memory_MB = await memoryOf(browser, context, page);
  await context.close();
  return {
    what,
    'drag to number, median': ms(share(waits, 0.5)),
    '95 %': ms(share(waits, 0.95)),
    'frames/s': frames.perSecond.toFixed(0),
    'longest frame': ms(frames.longest_ms),
    'undo to number': ms(steps['Control+z']!),
    redo: ms(steps['Control+Shift+z']!),
    'memory of the tab': memory_MB === null ? 'unknown' : `${memory_MB.toFixed(0)} MB`,
  };
}

/** All that the heaps of the page and of its workers hold after they were swept, and the buffers beside them. */
async function memoryOf(browser: Browser, context: BrowserContext, page: Page): Promise<number | null> {
  const session = await context.newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const processes = await (await browser.newBrowserCDPSession()).send('SystemInfo.getProcessInfo');
  // The page's own process is the renderer that has worked most.
  const renderer = processes.processInfo
    .filter(({ type }) => type === 'renderer')
    .sort((a, b) => b.cpuTime - a.cpuTime)[0];
  const file = `/proc/${renderer?.id}/smaps_rollup`;
  if (!renderer || !existsSync(file)) return null;
  const own_kB = [...readFileSync(file, 'utf8').matchAll(/^Private_\w+:\s+(\d+) kB/gm)];
  return own_kB.reduce((sum, [, kB]) => sum + Number(kB), 0) / 1000;
}

function share(values: readonly number[], part: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
}
