import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium, type Page } from 'playwright-core';
import { zeroOf } from '../../src/core/exposure/zero.ts';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import { luminanceOfRgb } from '../../src/core/picture/linear-rgb.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { calibrationOf, chosenCamera, exposureOf, lensOf } from '../../src/scene/camera/scene-camera.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../src/scene/file/open-scene.ts';
import { readSceneFiles, type SceneFiles } from '../../src/scene/files/scene-files.ts';
import type { Camera } from '../../src/scene/schema/camera.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { findBrowser } from '../browser/support/find-browser.ts';
import { floatsOf, jobOf } from '../parity/support/frame-job.ts';
import { openBarePage } from '../parity/support/page-bundle.ts';
import type { FrameOutcome } from '../parity/support/page-frame.ts';
import { equivalentScene, surfacesAndLamps } from './equivalent-scene.ts';
import { largeScene } from './large-scene.ts';
import { meshOf } from './mesh-of.ts';
import type { PathTracerJob } from './page-path-tracer.ts';
import { ms, type Row } from './report.ts';

const NO_FILES: SceneFiles = { photometry: new Map(), meshes: new Map() };
/** As long as a tile of a frame may take on the page. */
const BUDGET_ms = 16;
const SMALL = [160, 90] as const;
const LARGE = [320, 180] as const;
/** Few, for a software rasteriser is slow; as many as the replicates, without which there is no noise. */
const SAMPLES = 4;
const TRIANGLES = 100_000;
const NOISE_WANTED = 0.1;
/** Eight stops under middle grey noise does not count. */
const DARK_SHARE = 2 ** -8;

/** How fast frames are drawn, on whatever graphics the browser has; without a card that is a software rasteriser. */
export function benchPreview(): Promise<Row[]> {
  return inBrowser(async (openPage) => framesOf(await openPage('../parity/support/page-frame.ts')));
}

/** How soon a frame has little noise, beside a general-purpose path tracer in the same browser. */
export function benchAgainstPathTracer(): Promise<Row[]> {
  return inBrowser(async (openPage) => {
    const demo = demoScene();
    const camera = chosenCamera(demo);
    const bare = surfacesAndLamps(compileScene(demo, NO_FILES));
    const page = await openPage('../parity/support/page-frame.ts');
    const own = await drawn(page, bare, camera, LARGE);
    await page.close();
    const rival = await pathTraced(await openPage('page-path-tracer.ts'), bare, camera);
    const { luminance_cd_m2 } = zeroOf(exposureOf(camera), calibrationOf(demo));
    return compared(own, rival, luminance_cd_m2 * DARK_SHARE);
  });
}

async function inBrowser(bench: (openPage: (entry: string) => Promise<Page>) => Promise<Row[]>) {
  const browser = await chromium.launch({
    executablePath: findBrowser(),
    args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
  });
  built.clear();
  try {
    return await bench(async (entry) => {
      const { page } = await openBarePage(browser, fileURLToPath(new URL(entry, import.meta.url)));
      return page;
    });
  } finally {
    await browser.close();
  }
}

async function framesOf(page: Page): Promise<Row[]> {
  const demo = demoScene();
  const { haze: _, ...clear } = demo;
  const mesh = await meshOf(TRIANGLES);
  const rows: Row[] = [];
  const add = async (what: string, document: SceneDocument, size: readonly [number, number] = SMALL) => {
    const { files } = await readSceneFiles(document, async () => mesh);
    const frame = await drawn(page, compileScene(document, files), chosenCamera(document), size);
    const sample_ms = frame.sampling_ms / SAMPLES;
    rows.push({
      what: `${what}, ${size.join(' × ')}`,
      'shader built': frame.shader_ms === null ? 'as before' : ms(frame.shader_ms),
      'a sample': ms(sample_ms),
      'samples/s': (1000 / sample_ms).toFixed(2),
      'longest tile': ms(frame.longestTile_ms),
    });
  };
  await add('demo', demo);
  await add('demo', demo, LARGE);
  await add('demo without haze', clear);
  for (const lamps of [1, 4, 16, 64]) await add(`${lamps} lamps, 100 solids`, largeScene(lamps, 100, 1));
  for (const solids of [1_000, 10_000]) await add(`4 lamps, ${solids} solids`, largeScene(4, solids, 1));
  const crates = largeScene(4, 100, 1);
  const rock = {
    id: 'rock',
    shape: 'mesh',
    file: 'rock.glb',
    position_m: [0, 0, 0],
    material: 'timber-light',
  };
  const solids = [...crates.solids!, rock as unknown as NonNullable<typeof crates.solids>[number]];
  await add(`4 lamps, 100 solids, a mesh of ${TRIANGLES} triangles`, { ...crates, solids });
  return rows;
}

interface Drawn extends FrameOutcome {
  /** Null where the program was there already. */
  readonly shader_ms: number | null;
}

/** A tiny frame first, in which the driver builds the shader. */
async function drawn(
  page: Page,
  model: LightModel,
  camera: Camera,
  [width, height]: readonly [number, number],
): Promise<Drawn> {
  const scene = previewScene(model);
  const frame = (wide: number, high: number) =>
    page.evaluate((job) => window.keyfallFrame(job), {
      ...jobOf(scene, { lens: lensOf(camera), width: wide, height: high }, SAMPLES),
      budget_ms: BUDGET_ms,
    });
  const features = JSON.stringify(scene.features);
  const known = built.has(features);
  built.add(features);
  const first = await frame(32, 18);
  return { ...(await frame(width, height)), shader_ms: known ? null : first.build_ms + first.firstDraw_ms };
}

/** Features whose programs the page has. */
const built = new Set<string>();

interface PathTraced {
  /** Luminance of each pixel by block, rows upward. */
  readonly blocks: readonly Float32Array[];
  readonly build_ms: number;
  readonly sampling_ms: number;
}

const BLOCKS = 4;
const BLOCK_SAMPLES = 1;
const PATIENCE_ms = 120_000;

/** Null where it took too long. */
async function pathTraced(page: Page, model: LightModel, camera: Camera): Promise<PathTraced | null> {
  const [width, height] = LARGE;
  const job: PathTracerJob = {
    scene: equivalentScene(model, camera),
    width,
    height,
    blocks: BLOCKS,
    samples: BLOCK_SAMPLES,
  };
  const traced = page.evaluate((given) => window.keyfallPathTracer(given), job);
  const patience = new Promise<null>((resolve) => setTimeout(() => resolve(null), PATIENCE_ms).unref());
  const outcome = await Promise.race([traced, patience]);
  if (!outcome) {
    // Its page is closed under it.
    traced.catch(() => {});
    return null;
  }
  const { blockWords, ...times } = outcome;
  const blocks = blockWords.map((words) => {
    const rgba = floatsOf(words);
    return Float32Array.from({ length: width * height }, (_, i) =>
      luminanceOfRgb([rgba[4 * i]!, rgba[4 * i + 1]!, rgba[4 * i + 2]!]),
    );
  });
  return { blocks, ...times };
}

function compared(own: Drawn, rival: PathTraced | null, dark_cd_m2: number): Row[] {
  const rgb = floatsOf(own.words);
  const variances = floatsOf(own.varianceWords);
  const luminances = Array.from(variances, (_, i) =>
    luminanceOfRgb([rgb[3 * i]!, rgb[3 * i + 1]!, rgb[3 * i + 2]!]),
  );
  // Pixels that count are those that our frame shows; rows run the other way in the other.
  const lit = luminances.flatMap((Y, i) => (Y > dark_cd_m2 ? i : []));
  const ownNoise = median(lit.map((i) => Math.sqrt(variances[i]!) / luminances[i]!));
  const row = (
    what: string,
    samples: number,
    sampling_ms: number,
    noise: number,
    build_ms: number | null,
  ) => {
    const wanted_s = (sampling_ms / 1000) * (noise / NOISE_WANTED) ** 2;
    return {
      row: {
        what,
        'shader built': build_ms === null ? 'as before' : ms(build_ms),
        'a sample': ms(sampling_ms / samples),
        [`noise at ${SAMPLES}`]: `${(100 * noise).toFixed(0)} %`,
        [`to ${100 * NOISE_WANTED} %, extrapolated`]: `${wanted_s.toFixed(1)} s`,
      },
      wanted_s,
    };
  };
  const ours = row('ours', SAMPLES, own.sampling_ms, ownNoise, own.shader_ms);
  if (!rival)
    return [
      { ...ours.row, ratio: '1' },
      { what: `general-purpose path tracer: not in ${PATIENCE_ms / 1000} s` },
    ];
  const [width, height] = LARGE;
  const rivalNoise = median(
    lit.map((i) => {
      const at = (height - 1 - Math.floor(i / width)) * width + (i % width);
      return relativeError(rival.blocks.map((block) => block[at]!));
    }),
  );
  const theirs = row(
    'general-purpose path tracer',
    BLOCKS * BLOCK_SAMPLES,
    rival.sampling_ms,
    rivalNoise,
    rival.build_ms,
  );
  const ratio = (theirs.wanted_s / ours.wanted_s).toFixed(1);
  return [
    { ...ours.row, ratio: '1' },
    { ...theirs.row, ratio },
  ];
}

/** Standard error of the mean over the mean; without bound where there is no light yet. */
function relativeError(values: readonly number[]): number {
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  const squares = values.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  return mean > 0
    ? Math.sqrt(squares / (values.length - 1) / values.length) / mean
    : Number.POSITIVE_INFINITY;
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1]!;
}

function demoScene(): SceneDocument {
  const text = readFileSync(new URL('../../scenes/night-quay.json', import.meta.url), 'utf8');
  return openScene(text).document!;
}
