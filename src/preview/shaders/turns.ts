import type { Chunk } from './chunk.ts';
import { kronecker } from './kronecker.ts';

/** Light that is asked for in some samples only, at one block of pixels in this sample and at another in the next. */
export const turns: Chunk = {
  name: 'turns',
  needs: [kronecker],
  code: /* glsl */ `
// Pixels drawn together wait for one another, so that what is spared is spared by whole blocks, larger than what a card draws
// together: it was seen to draw pixels of two or three blocks of 8 together.
const int BLOCK_px = 16;

// What this one of a row of turns stands for at a block: for all of so many turns or, but for one of them, for nothing. Which
// one it is, is drawn anew for each block and each time, so that the mean over all turns is that of all and no rhythm shows.
float standsFor(uint block, uint turn, uint every) {
  return turn % every == mixed32(block + turn / every) % every ? float(every) : 0.0;
}
`,
};
