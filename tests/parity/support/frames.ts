import { fileURLToPath } from 'node:url';
import type { Texels } from '../../../src/preview/pack/texels.ts';
import type { PreviewScene } from '../../../src/preview/renderer/preview-scene.ts';
import { launchBrowser } from '../../browser/support/open-page.ts';
import { openBarePage } from './page-bundle.ts';
import type { FrameJob, FrameOutcome } from './page-frame.ts';
import { textFromWords, wordsFromText, wordsOf } from './words.ts';

export interface GraphicsFrame extends Omit<FrameOutcome, 'words' | 'varianceWords'> {
  /** Mean linear RGB, three numbers a pixel, rows downward. */
  readonly rgb: Float32Array;
  /** Of the mean luminance of each pixel. */
  readonly variances: Float32Array;
}

export interface Frames {
  render(scene: PreviewScene, view: FrameJob['view'], samples: number): Promise<GraphicsFrame>;
  close(): Promise<void>;
}

/** A page that renders frames as the preview does; one serves a whole test file. */
export async function openFrames(): Promise<Frames> {
  const browser = await launchBrowser();
  const { page, complaints } = await openBarePage(
    browser,
    fileURLToPath(new URL('page-frame.ts', import.meta.url)),
  );
  return {
    close: () => browser.close(),
    render: async ({ textures, uniforms, features }, view, samples) => {
      const job: FrameJob = {
        textures: Object.fromEntries(
          Object.entries(textures).map(([name, texels]) => [name, asText(texels)]),
        ),
        uniforms,
        features,
        view,
        samples,
      };
      const { words, varianceWords, ...outcome } = await page.evaluate(
        (given) => window.keyfallFrame(given),
        job,
      );
      if (complaints.length > 0) throw new Error(complaints.join('\n'));
      return { ...outcome, rgb: floatsOf(words), variances: floatsOf(varianceWords) };
    },
  };
}

function floatsOf(words: string): Float32Array {
  return new Float32Array(wordsFromText(words).buffer);
}

function asText({ width, height, data }: Texels) {
  return { width, height, words: textFromWords(wordsOf(data)) };
}
