import type { Chunk } from './chunk.ts';
import { type Features, featuresChunk } from './features.ts';
import { keptLight } from './kept-light.ts';
import { startOfCamera, startOfMeters } from './path-start.ts';
import { waveOut } from './wave-out.ts';

/** Paths begin. */
export const waveStart = (features: Features, ofMeters: boolean): Chunk => ({
  name: 'wave-start',
  needs: [featuresChunk(features), keptLight(1), waveOut, ofMeters ? startOfMeters : startOfCamera],
  code: /* glsl */ `
// Of the tile in the frame.
uniform ivec2 tileAt;

void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
  RandomState random = numbersFrom(pixel, 0u, 0u);
  writePath(pathFrom(pixel + tileAt, random), AT_NOTHING, false);
}
`,
});
