import { fileURLToPath } from 'node:url';
import type { Texels } from '../../../src/preview/pack/texels.ts';
import type { PreviewScene } from '../../../src/preview/renderer/preview-scene.ts';
import type { Showing } from '../../../src/preview/renderer/showing.ts';
import { launchBrowser } from '../../browser/support/open-page.ts';
import { openBarePage } from './page-bundle.ts';
import type { FrameJob, FrameOutcome, LifeOutcome } from './page-frame.ts';
import { textFromWords, wordsFromText, wordsOf } from './words.ts';

export interface GraphicsFrame extends Omit<FrameOutcome, 'words' | 'varianceWords'> {
  /** Mean linear RGB, three numbers a pixel, rows downward. */
  readonly rgb: Float32Array;
  /** Of the mean luminance of each pixel. */
  readonly variances: Float32Array;
}

export interface Frames {
  render(scene: PreviewScene, view: FrameJob['view'], samples: number): Promise<GraphicsFrame>;
  live(scene: PreviewScene, view: FrameJob['view'], samples: number, showing: Showing): Promise<LifeOutcome>;
  close(): Promise<void>;
}

/** A page that renders frames as the preview does; one serves a whole test file. */
export async function openFrames(): Promise<Frames> {
  const browser = await launchBrowser();
  const { page, complaints } = await openBarePage(
    browser,
    fileURLToPath(new URL('page-frame.ts', import.meta.url)),
  );
  const told = <T>(outcome: T): T => {
    if (complaints.length > 0) throw new Error(complaints.join('\n'));
    return outcome;
  };
  return {
    close: () => browser.close(),
    render: async (scene, view, samples) => {
      const job = jobOf(scene, view, samples);
      const { words, varianceWords, ...outcome } = told(
        await page.evaluate((given) => window.keyfallFrame(given), job),
      );
      return { ...outcome, rgb: floatsOf(words), variances: floatsOf(varianceWords) };
    },
    live: async (scene, view, samples, showing) => {
      const given = { job: jobOf(scene, view, samples), showing };
      return told(await page.evaluate(({ job, showing: how }) => window.keyfallLife(job, how), given));
    },
  };
}

/** A scene and how it is to be seen, as plain data. */
export function jobOf(
  { textures, uniforms, features, gains }: PreviewScene,
  view: FrameJob['view'],
  samples: number,
): FrameJob {
  return {
    textures: Object.fromEntries(Object.entries(textures).map(([name, texels]) => [name, asText(texels)])),
    uniforms,
    features,
    gains,
    view,
    samples,
  };
}

export function floatsOf(words: string): Float32Array {
  return new Float32Array(wordsFromText(words).buffer);
}

function asText({ width, height, data }: Texels) {
  return { width, height, words: textFromWords(wordsOf(data)) };
}
