import { newTexels, type Texels } from '../../../src/preview/pack/texels.ts';
import type { Chunk } from '../../../src/preview/shaders/chunk.ts';

/** Numbers one behind the other in a texture `numberTexels`, for functions that read tables. */
export function numberTexels(numbers: ArrayLike<number>): Texels {
  const texels = newTexels(Math.ceil(numbers.length / 4));
  texels.data.set(Array.from(numbers));
  return texels;
}

/** `numberAt(i)` reads them; `more` defines by it what the chunks in `needs` leave to be defined. */
export function numberReader(needs: readonly Chunk[], more: string): Chunk {
  return {
    name: 'tables of the test',
    needs,
    code: `
uniform sampler2D numberTexels;
float numberAt(int i) {
  return texelFetch(numberTexels, ivec2((i >> 2) & 2047, i >> 13), 0)[i & 3];
}
${more}`,
  };
}
