import { fileURLToPath } from 'node:url';
import type { PreviewScene } from '../../../src/preview/renderer/preview-scene.ts';
import type { Showing } from '../../../src/preview/renderer/showing.ts';
import { launchBrowser } from '../../browser/support/open-page.ts';
import { floatsOf, jobOf } from './frame-job.ts';
import { openBarePage } from './page-bundle.ts';
import type { FrameJob, FrameOutcome, LifeOutcome } from './page-frame.ts';
import type { RemixOutcome, RemixStep } from './page-remix.ts';

export interface GraphicsFrame extends Omit<FrameOutcome, 'words' | 'varianceWords'> {
  /** Mean linear RGB, three numbers a pixel, rows downward. */
  readonly rgb: Float32Array;
  /** Of the mean luminance of each pixel. */
  readonly variances: Float32Array;
}

/** What is done to a frame whose light is kept by lamp: another scene, another mix, so many more samples. */
export interface FrameStep extends Omit<RemixStep, 'job'> {
  readonly scene?: PreviewScene;
}

/** How a frame whose light is kept by lamp stands after a step; rows downward. */
export interface RemixedFrame extends Omit<RemixOutcome, 'words' | 'varianceWords'> {
  readonly rgb: Float32Array;
  readonly variances: Float32Array | null;
}

export interface Frames {
  /** `apart`, here and below: turn by turn, in passes. */
  render(
    scene: PreviewScene,
    view: FrameJob['view'],
    samples: number,
    apart?: boolean,
  ): Promise<GraphicsFrame>;
  live(
    scene: PreviewScene,
    view: FrameJob['view'],
    samples: number,
    showing: Showing,
    apart?: boolean,
  ): Promise<LifeOutcome>;
  /** The frame of one renderer that keeps light by lamp, after each step. */
  remix(
    scene: PreviewScene,
    view: FrameJob['view'],
    steps: readonly FrameStep[],
    apart?: boolean,
  ): Promise<RemixedFrame[]>;
  close(): Promise<void>;
}

/** A page that renders frames as the preview does; one serves a whole test file. */
export async function openFrames(): Promise<Frames> {
  const browser = await launchBrowser();
  const { page, complaints } = await openBarePage(
    browser,
    fileURLToPath(new URL('page-remix.ts', import.meta.url)),
  );
  const told = <T>(outcome: T): T => {
    if (complaints.length > 0) throw new Error(complaints.join('\n'));
    return outcome;
  };
  return {
    close: () => browser.close(),
    render: async (scene, view, samples, apart = false) => {
      const job = { ...jobOf(scene, view, samples), apart };
      const { words, varianceWords, ...outcome } = told(
        await page.evaluate((given) => window.keyfallFrame(given), job),
      );
      return { ...outcome, rgb: floatsOf(words), variances: floatsOf(varianceWords) };
    },
    remix: async (scene, view, steps, apart = false) => {
      const given = {
        job: { ...jobOf(scene, view, 0), apart },
        steps: steps.map(({ scene: next, ...step }) => ({
          ...step,
          ...(next && { job: jobOf(next, view, 0) }),
        })),
      };
      const outcomes = told(
        await page.evaluate(({ job, steps: each }) => window.keyfallRemix(job, each), given),
      );
      return outcomes.map(({ words, varianceWords, ...outcome }) => ({
        ...outcome,
        rgb: floatsOf(words),
        variances: varianceWords === null ? null : floatsOf(varianceWords),
      }));
    },
    live: async (scene, view, samples, showing, apart = false) => {
      const given = { job: { ...jobOf(scene, view, samples), apart }, showing };
      return told(await page.evaluate(({ job, showing: how }) => window.keyfallLife(job, how), given));
    },
  };
}
