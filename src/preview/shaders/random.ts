import type { Chunk } from './chunk.ts';
import { kronecker } from './kronecker.ts';

/**
 * The core's stratified numbers of one path after another, bit for bit; a number is the upper 24 of its 32 bits, so that it
 * stays below 1 as a float. The core draws those after its first 192 at chance, as they come cheaper there; here all are
 * stratified, for that a shader has the code anyway.
 */
export const random: Chunk = {
  name: 'random',
  needs: [kronecker],
  code: /* glsl */ `
struct RandomState {
  uint scramble;
  // The path's number with its bits in reverse.
  uint reversed;
  uint dimension;
};

uint reversedBits(uint bits) {
  uint x = bits;
  x = ((x >> 1u) & 0x55555555u) | ((x & 0x55555555u) << 1u);
  x = ((x >> 2u) & 0x33333333u) | ((x & 0x33333333u) << 2u);
  x = ((x >> 4u) & 0x0f0f0f0fu) | ((x & 0x0f0f0f0fu) << 4u);
  x = ((x >> 8u) & 0x00ff00ffu) | ((x & 0x00ff00ffu) << 8u);
  return (x >> 16u) | (x << 16u);
}

// Laine & Karras 2011, constants of Burley 2020.
uint owenHash(uint bits, uint key) {
  uint x = bits + key;
  x ^= x * 0x6c50b47cu;
  x ^= x * 0xb82f1e52u;
  x ^= x * 0xc7afe638u;
  x ^= x * 0x8d22f6e6u;
  return x;
}

// The stream of a seed, standing at the path of this number.
RandomState pathRandom(uint seed, uint path) {
  return RandomState(mixed32(seed + 0x1b873593u), reversedBits(path), 0u);
}

// The next number, 0 ≤ x < 1.
float nextRandom(inout RandomState state) {
  state.dimension++;
  uint key = state.scramble ^ mixed32(state.dimension);
  uint shuffled = owenHash(state.reversed, key);
  return unitOfBits(reversedBits(owenHash(reversedBits(shuffled), ~key)));
}

uvec4 reversedBits(uvec4 bits) {
  uvec4 x = bits;
  x = ((x >> 1u) & 0x55555555u) | ((x & 0x55555555u) << 1u);
  x = ((x >> 2u) & 0x33333333u) | ((x & 0x33333333u) << 2u);
  x = ((x >> 4u) & 0x0f0f0f0fu) | ((x & 0x0f0f0f0fu) << 4u);
  x = ((x >> 8u) & 0x00ff00ffu) | ((x & 0x00ff00ffu) << 8u);
  return (x >> 16u) | (x << 16u);
}

uvec4 owenHash(uvec4 bits, uvec4 key) {
  uvec4 x = bits + key;
  x ^= x * 0x6c50b47cu;
  x ^= x * 0xb82f1e52u;
  x ^= x * 0xc7afe638u;
  x ^= x * 0x8d22f6e6u;
  return x;
}

// The next four, side by side.
vec4 nextFour(inout RandomState state) {
  uvec4 h = state.dimension + uvec4(1u, 2u, 3u, 4u);
  state.dimension += 4u;
  h = (h ^ (h >> 16u)) * 0x85ebca6bu;
  h = (h ^ (h >> 13u)) * 0xc2b2ae35u;
  uvec4 key = state.scramble ^ h ^ (h >> 16u);
  uvec4 shuffled = owenHash(uvec4(state.reversed), key);
  return vec4(reversedBits(owenHash(reversedBits(shuffled), ~key)) >> 8u) * 5.9604644775390625e-8;
}
`,
};
