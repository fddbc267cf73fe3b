import type { Texels } from '../../../src/preview/pack/texels.ts';
import type { PreviewScene } from '../../../src/preview/renderer/preview-scene.ts';
import type { FrameJob } from './page-frame.ts';
import { textFromWords, wordsFromText, wordsOf } from './words.ts';

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
