import type { ThinLens } from '../../../src/core/camera/thin-lens.ts';
import type { Receptor } from '../../../src/core/transport/receptor.ts';
import type { MeterPoint } from '../../../src/core/transport/source-sample.ts';
import { createRenderer, type Renderer } from '../../../src/preview/renderer/renderer.ts';
import type { Features } from '../../../src/preview/shaders/features.ts';
import { textFromWords, wordsFromText, wordsOf } from './words.ts';

/** What the test asks of the page: everything as plain data. Words are given as text (words.ts). */
export interface FrameJob {
  readonly textures: Readonly<
    Record<string, { readonly width: number; readonly height: number; readonly words: string }>
  >;
  readonly uniforms: Readonly<Record<string, readonly number[]>>;
  readonly features: Features;
  readonly view:
    | { readonly lens: ThinLens; readonly width: number; readonly height: number }
    | { readonly meters: readonly { readonly point: MeterPoint; readonly receptor: Receptor }[] };
  readonly samples: number;
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
  readonly longestTile_ms: number;
}

declare global {
  interface Window {
    keyfallFrame(job: FrameJob): Promise<FrameOutcome>;
  }
}

/** On the software rasteriser of a busy machine short tiles only cost time. */
const BUDGET_ms = 400;

let kept: Renderer | undefined;

window.keyfallFrame = async (job) => {
  kept ??= createRenderer(document.createElement('canvas'));
  const renderer = kept;
  renderer.setScene({
    uniforms: job.uniforms,
    features: job.features,
    textures: Object.fromEntries(
      Object.entries(job.textures).map(([name, { width, height, words }]) => [
        name,
        { width, height, data: new Float32Array(wordsFromText(words).buffer) },
      ]),
    ),
  });
  if ('lens' in job.view) renderer.setCamera(job.view.lens, job.view.width, job.view.height);
  else renderer.setMeters(job.view.meters);
  const began = performance.now();
  while (renderer.renderSome(BUDGET_ms) === 'building') await browserTurn();
  const built = performance.now();
  while (renderer.samples() < job.samples) {
    await browserTurn();
    if (renderer.renderSome(BUDGET_ms) === 'idle') throw new Error('The renderer has nothing to draw.');
  }
  const done = performance.now();
  return {
    words: textFromWords(wordsOf(renderer.linear()!)),
    varianceWords: textFromWords(wordsOf(renderer.variances()!)),
    noise: renderer.noise(),
    lost: renderer.lost(),
    build_ms: built - began,
    sampling_ms: done - built,
    longestTile_ms: renderer.longestTile_ms(),
  };
};

/** A timer, for a page that asks again and again at once takes the processor from the software rasteriser. */
function browserTurn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 1));
}
