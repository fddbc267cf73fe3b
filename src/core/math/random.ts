import { mixed32 } from './kronecker.ts';

/**
 * A stream of numbers for one path after another. The first DIMENSIONS numbers of a path are stratified: the k-th number,
 * taken over 2ⁿ paths, falls once into each of 2ⁿ equal parts of the unit interval, so a question that all paths ask alike
 * (which lamp, how far along, in what direction) is answered evenly; and numbers of different places are independent.
 * Made by hashing, after Burley, Practical hash-based Owen scrambling (JCGT 9(4), 2020): radical inverse of the path's
 * number, its order shuffled and its value scrambled anew for every place, both by the Laine–Karras hash. Further numbers
 * are pseudo-random: xoshiro128** (Blackman & Vigna 2018, public domain). All in 32-bit arithmetic.
 */
export interface RandomState {
  a: number;
  b: number;
  c: number;
  d: number;
  readonly scramble: number;
  path: number;
  /** The path's number with its bits in reverse. */
  reversed: number;
  dimension: number;
}

const DIMENSIONS = 192;
/** What makes one place's scramble another's. */
const KEYS = Int32Array.from({ length: DIMENSIONS }, (_, i) => mixed32(i + 1));

/** A stream from a seed, standing at its first path; different seeds give unrelated streams. */
export function seededRandom(seed: number): RandomState {
  return {
    a: mixed32(seed ^ 0x9e3779b9) | 1,
    b: mixed32(seed + 0x3c6ef372),
    c: mixed32(seed + 0x78dde6e4),
    d: mixed32(seed + 0xf1bbcdc8),
    scramble: mixed32(seed + 0x1b873593),
    path: 0,
    reversed: 0,
    dimension: 0,
  };
}

/** Goes to the path of this number. */
export function startPath(state: RandomState, path: number): void {
  state.path = path;
  state.reversed = reversedBits(path);
  state.dimension = 0;
}

/** The next number, 0 ≤ x < 1. */
export function nextRandom(state: RandomState): number {
  if (state.dimension < DIMENSIONS) {
    const key = state.scramble ^ KEYS[state.dimension++]!;
    const shuffled = owenHash(state.reversed, key);
    return (reversedBits(owenHash(reversedBits(shuffled), ~key)) >>> 0) * 2 ** -32;
  }
  const b5 = Math.imul(state.b, 5);
  const result = Math.imul((b5 << 7) | (b5 >>> 25), 9) >>> 0;
  const t = state.b << 9;
  state.c ^= state.a;
  state.d ^= state.b;
  state.b ^= state.c;
  state.a ^= state.d;
  state.c ^= t;
  state.d = (state.d << 11) | (state.d >>> 21);
  return result * 2 ** -32;
}

/** Laine & Karras 2011, constants of Burley: bits are changed only by lower ones, which is Owen's scramble in reverse. */
function owenHash(bits: number, key: number): number {
  let x = (bits + key) | 0;
  x ^= Math.imul(x, 0x6c50b47c);
  x ^= Math.imul(x, 0xb82f1e52);
  x ^= Math.imul(x, 0xc7afe638);
  x ^= Math.imul(x, 0x8d22f6e6);
  return x;
}

function reversedBits(bits: number): number {
  let x = bits;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return (x >>> 16) | (x << 16);
}
