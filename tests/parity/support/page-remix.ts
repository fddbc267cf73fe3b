import type { Mix } from '../../../src/preview/renderer/light-keeping.ts';
import { createRenderer, type Renderer } from '../../../src/preview/renderer/renderer.ts';
import { type FrameJob, renderUntil, sceneOf, setUp } from './page-frame.ts';
import { textFromWords, wordsOf } from './words.ts';

/** What is done to a frame whose light is kept by lamp, one after the other. */
export interface RemixStep {
  /** The scene is this one from now on. */
  readonly job?: FrameJob;
  /** Lamps are mixed so from now on; as before when left out. */
  readonly mix?: Mix;
  /** Samples added then. */
  readonly more: number;
}

/** How the frame stands after a step. */
export interface RemixOutcome {
  readonly samples: number;
  readonly edition: number;
  /** Mean linear RGB, three floats a pixel, rows downward. */
  readonly words: string;
  /** Variance of the mean luminance of each pixel; null before there is any. */
  readonly varianceWords: string | null;
  readonly noise: number;
  readonly lost: number;
}

declare global {
  interface Window {
    keyfallRemix(job: FrameJob, steps: readonly RemixStep[]): Promise<RemixOutcome[]>;
  }
}

/** One for all jobs of a page that are drawn alike, so that its programs are built once. */
const kept = new Map<boolean, Renderer>();

window.keyfallRemix = async (job, steps) => {
  const { apart = false } = job;
  const renderer =
    kept.get(apart) ?? createRenderer(document.createElement('canvas'), { byLamp: true, apart });
  kept.set(apart, renderer);
  setUp(renderer, job);
  const outcomes: RemixOutcome[] = [];
  for (const { job: next, mix, more } of steps) {
    if (next) renderer.setScene(sceneOf(next));
    if (mix) renderer.setMix(mix);
    const wanted = renderer.samples() + more;
    await renderUntil(renderer, () => renderer.samples() >= wanted);
    const variances = renderer.variances();
    outcomes.push({
      samples: renderer.samples(),
      edition: renderer.edition(),
      words: textFromWords(wordsOf(renderer.linear()!)),
      varianceWords: variances && textFromWords(wordsOf(variances)),
      noise: renderer.noise(),
      lost: renderer.lost(),
    });
  }
  return outcomes;
};
