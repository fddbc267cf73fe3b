import type { Chunk } from './chunk.ts';
import { random } from './random.ts';

/** The random numbers of a pixel's path in this sample. */
export const pixelNumbers: Chunk = {
  name: 'pixel-numbers',
  needs: [random],
  code: /* glsl */ `
uniform uint seed;
// Samples so far, over all replicates.
uniform uint samplesBefore;
// Pixels of a picture are told apart by where they stand in the whole of it, whatever part of it is drawn.
uniform ivec2 namedFrom;
uniform int namedWidth;

const uint REPLICATES = 4u;

ivec2 namedPixel(ivec2 pixel) {
  return pixel + namedFrom;
}

// From the number of this place on. Every kind of light has a sequence of its own.
RandomState numbersFrom(ivec2 pixel, uint kind, uint place) {
  ivec2 named = namedPixel(pixel);
  uint key = mixed32(mixed32(seed + kind) + uint(named.y * namedWidth + named.x));
  uint of = key + 0x632be59bu * (samplesBefore % REPLICATES);
  RandomState state = pathRandom(of, samplesBefore / REPLICATES);
  state.dimension = place;
  return state;
}
`,
};
