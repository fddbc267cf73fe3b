import type { Chunk } from './chunk.ts';

export const pi: Chunk = {
  name: 'pi',
  needs: [],
  code: /* glsl */ `
const float PI = 3.14159265358979;
const float TWO_PI = 6.28318530717959;
`,
};
