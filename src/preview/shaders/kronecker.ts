import type { Chunk } from './chunk.ts';

/** The two-dimensional low-discrepancy sequence of the core, to the 24 bits that a float holds. */
export const kronecker: Chunk = {
  name: 'kronecker',
  needs: [],
  code: /* glsl */ `
// The upper 24 bits as a part of 1, always less than 1.
float unitOfBits(uint bits) {
  return float(bits >> 8u) * 5.9604644775390625e-8;
}

float kroneckerU(uint i, uint shift) {
  return unitOfBits(i * 3242174889u + shift);
}

float kroneckerV(uint i, uint shift) {
  return unitOfBits(i * 2447445414u + shift);
}

// The finalizer of MurmurHash3 (public domain).
uint mixed32(uint key) {
  uint h = key;
  h = (h ^ (h >> 16u)) * 0x85ebca6bu;
  h = (h ^ (h >> 13u)) * 0xc2b2ae35u;
  return h ^ (h >> 16u);
}
`,
};
