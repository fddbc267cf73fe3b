import type { Chunk } from './chunk.ts';
import { type Features, featuresChunk } from './features.ts';
import { keptLight } from './kept-light.ts';
import { keptSample } from './kept-sample.ts';
import { path } from './path.ts';
import { startOfCamera, startOfMeters } from './path-start.ts';
import { pixelNumbers } from './pixel-numbers.ts';

/** One more sample of every pixel, of all kinds of light: a camera's frame, or meters. */
export const frame = (features: Features, sums: number, ofMeters: boolean): Chunk => ({
  name: 'frame',
  needs: [
    featuresChunk(features),
    keptLight(sums),
    path,
    ofMeters ? startOfMeters : startOfCamera,
    pixelNumbers,
    keptSample(sums),
  ],
  code: /* glsl */ `
void main() {
  ivec2 pixel = ivec2(gl_FragCoord.xy);
${Array.from({ length: sums }, (_, i) => `  keptLight[${i}] = vec3(0.0);`).join('\n')}
  RandomState random = numbersFrom(pixel, 0u, 0u);
  tracePath(pathFrom(pixel, random), random);
  keepSample(pixel);
}
`,
});
