import type { ThinLens } from '../../../src/core/camera/thin-lens.ts';
import type { Receptor } from '../../../src/core/transport/receptor.ts';
import type { MeterPoint } from '../../../src/core/transport/source-sample.ts';
import type { Mix } from '../../../src/preview/renderer/light-keeping.ts';
import type { PreviewScene } from '../../../src/preview/renderer/preview-scene.ts';
import { createRenderer, type Renderer, type Stage } from '../../../src/preview/renderer/renderer.ts';
import type { Showing } from '../../../src/preview/renderer/showing.ts';
import type { PicturePart } from '../../../src/preview/renderer/view.ts';
import type { Features } from '../../../src/preview/shaders/features.ts';
import { textFromWords, wordsFromText, wordsOf } from './words.ts';

/** What the test asks of the page: everything as plain data. Words are given as text (words.ts). */
export interface FrameJob {
  readonly textures: Readonly<
    Record<string, { readonly width: number; readonly height: number; readonly words: string }>
  >;
  readonly uniforms: Readonly<Record<string, readonly number[]>>;
  readonly features: Features;
  readonly gains: Mix;
  readonly view:
    | {
        readonly lens: ThinLens;
        readonly width: number;
        readonly height: number;
        readonly part?: PicturePart;
      }
    | { readonly meters: readonly { readonly point: MeterPoint; readonly receptor: Receptor }[] };
  readonly samples: number;
  /** How long a tile may take. */
  readonly budget_ms?: number;
  /** Turn by turn, in passes, whatever the driver. */
  readonly apart?: boolean;
}

export interface FrameOutcome {
  /** Mean linear RGB, three floats a pixel, rows downward. */
  readonly words: string;
  /** Variance of the mean luminance of each pixel. */
  readonly varianceWords: string;
  readonly noise: number;
  readonly lost: number;
  readonly build_ms: number;
  readonly sampling_ms: number;
  readonly firstDraw_ms: number;
  readonly longestTile_ms: number;
}

/** A renderer's life: shown early, sampled, shown, its context lost and given back, sampled again. */
export interface LifeOutcome {
  readonly shownEmpty: boolean;
  readonly samplesWhenFirstShown: number;
  /** Mean linear RGB. */
  readonly words: string;
  /** The canvas as shown, four bytes a pixel, rows upward. */
  readonly pixels: readonly number[];
  readonly whileLost: { readonly stage: Stage; readonly samples: number; readonly shown: boolean };
  readonly sameAgain: boolean;
}

declare global {
  interface Window {
    keyfallLife(job: FrameJob, showing: Showing): Promise<LifeOutcome>;
    keyfallFrame(job: FrameJob): Promise<FrameOutcome>;
  }
}

/** On the software rasteriser of a busy machine short tiles only cost time. */
const BUDGET_ms = 400;

const kept = new Map<boolean, Renderer>();

window.keyfallFrame = async (job) => {
  const { apart = false } = job;
  const renderer = kept.get(apart) ?? createRenderer(document.createElement('canvas'), { apart });
  kept.set(apart, renderer);
  setUp(renderer, job);
  const began = performance.now();
  const { budget_ms = BUDGET_ms } = job;
  while (renderer.renderSome(budget_ms) === 'building') await browserTurn();
  const built = performance.now();
  await renderUntil(renderer, () => renderer.samples() >= job.samples, budget_ms);
  const done = performance.now();
  return {
    words: textFromWords(wordsOf(renderer.linear()!)),
    varianceWords: textFromWords(wordsOf(renderer.variances()!)),
    noise: renderer.noise(),
    lost: renderer.lost(),
    build_ms: built - began,
    sampling_ms: done - built,
    firstDraw_ms: renderer.firstDraw_ms(),
    longestTile_ms: renderer.longestTile_ms(),
  };
};

window.keyfallLife = async (job, showing) => {
  if (!('lens' in job.view)) throw new Error('A life is that of a camera.');
  const { width, height } = job.view;
  const canvas = Object.assign(document.createElement('canvas'), { width, height });
  const renderer = createRenderer(canvas, { apart: job.apart ?? false });
  const gl = canvas.getContext('webgl2')!;
  const shownEmpty = renderer.show(showing);
  setUp(renderer, job);
  await renderUntil(renderer, () => renderer.show(showing));
  const samplesWhenFirstShown = renderer.samples();
  await renderUntil(renderer, () => renderer.samples() >= job.samples);
  const first = renderer.linear()!;
  renderer.show(showing);
  const pixels = new Uint8Array(4 * width * height);
  gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, pixels);

  const loss = gl.getExtension('WEBGL_lose_context')!;
  const lost = eventOf(canvas, 'webglcontextlost');
  loss.loseContext();
  await lost;
  const whileLost = {
    stage: renderer.renderSome(BUDGET_ms),
    samples: renderer.samples(),
    shown: renderer.show(showing),
  };
  // The browser gives a context back only when the handler of its loss is through.
  await browserTurn();
  const restored = eventOf(canvas, 'webglcontextrestored');
  loss.restoreContext();
  await restored;
  await renderUntil(renderer, () => renderer.samples() >= job.samples);
  const again = renderer.linear()!;
  renderer.dispose();
  return {
    shownEmpty,
    samplesWhenFirstShown,
    words: textFromWords(wordsOf(first)),
    pixels: [...pixels],
    whileLost,
    sameAgain: again.every((x, i) => x === first[i]),
  };
};

/** Takes up the scene and the view of a job; nothing stays of a job before, as light otherwise would. */
export function setUp(renderer: Renderer, job: FrameJob): void {
  renderer.setMeters([]);
  renderer.setScene(sceneOf(job));
  const { view } = job;
  if ('lens' in view) renderer.setCamera(view.lens, view.width, view.height, view.part);
  else renderer.setMeters(view.meters);
}

/** The scene that came as text. */
export function sceneOf({ uniforms, features, gains, textures }: FrameJob): PreviewScene {
  return {
    uniforms,
    features,
    gains,
    textures: Object.fromEntries(
      Object.entries(textures).map(([name, { width, height, words }]) => [
        name,
        { width, height, data: new Float32Array(wordsFromText(words).buffer) },
      ]),
    ),
  };
}

/** @throws Error when there is nothing to draw */
export async function renderUntil(
  renderer: Renderer,
  reached: () => boolean,
  budget_ms = BUDGET_ms,
): Promise<void> {
  while (!reached()) {
    await browserTurn();
    if (renderer.renderSome(budget_ms) === 'idle') throw new Error('The renderer has nothing to draw.');
  }
}

function eventOf(canvas: HTMLCanvasElement, name: string): Promise<void> {
  return new Promise((resolve) => canvas.addEventListener(name, () => resolve(), { once: true }));
}

/** A timer, for a page that asks again and again at once takes the processor from the software rasteriser. */
function browserTurn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 1));
}
