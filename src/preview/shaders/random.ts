import type { Chunk } from './chunk.ts';
import { kronecker } from './kronecker.ts';

/**
 * The core's stream of numbers for one path after another, bit for bit; a number is the upper 24 of its 32 bits, so that it
 * stays below 1 as a float. Beyond the stratified numbers the core's stream runs on from path to path, which a shader that
 * keeps nothing between its paths cannot: `pathRandom` seeds those anew for every path.
 */
export const random: Chunk = {
  name: 'random',
  needs: [kronecker],
  code: /* glsl */ `
struct RandomState {
  uint a;
  uint b;
  uint c;
  uint d;
  uint scramble;
  // The path's number with its bits in reverse.
  uint reversed;
  uint dimension;
};

// How many numbers of a path are stratified.
const uint DIMENSIONS = 192u;

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

// A stream from a seed, standing at its first path.
RandomState seededRandom(uint seed) {
  return RandomState(
    mixed32(seed ^ 0x9e3779b9u) | 1u,
    mixed32(seed + 0x3c6ef372u),
    mixed32(seed + 0x78dde6e4u),
    mixed32(seed + 0xf1bbcdc8u),
    mixed32(seed + 0x1b873593u),
    0u,
    0u
  );
}

// Goes to the path of this number.
void startPath(inout RandomState state, uint path) {
  state.reversed = reversedBits(path);
  state.dimension = 0u;
}

// The stream of a seed, standing at the path of this number, its pseudo-random numbers those of this path alone.
RandomState pathRandom(uint seed, uint path) {
  RandomState state = seededRandom(mixed32(seed) + path);
  state.scramble = mixed32(seed + 0x1b873593u);
  startPath(state, path);
  return state;
}

// The next one of the generator's own numbers.
float nextBeyond(inout RandomState state) {
  uint b5 = state.b * 5u;
  uint result = ((b5 << 7u) | (b5 >> 25u)) * 9u;
  uint t = state.b << 9u;
  state.c ^= state.a;
  state.d ^= state.b;
  state.b ^= state.c;
  state.a ^= state.d;
  state.c ^= t;
  state.d = (state.d << 11u) | (state.d >> 21u);
  return unitOfBits(result);
}

// The next number, 0 ≤ x < 1.
float nextRandom(inout RandomState state) {
  if (state.dimension >= DIMENSIONS) return nextBeyond(state);
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

// The next four, stratified all of them or none. Side by side, without a loop: a driver would copy its turns.
vec4 nextFour(inout RandomState state) {
  if (state.dimension + 4u > DIMENSIONS) {
    state.dimension = DIMENSIONS;
    float first = nextBeyond(state);
    float second = nextBeyond(state);
    float third = nextBeyond(state);
    return vec4(first, second, third, nextBeyond(state));
  }
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
