import { mixed32 } from './kronecker.ts';

/** State of a seeded random-number generator: xoshiro128** (Blackman & Vigna 2018, public domain), 32-bit arithmetic. */
export interface RandomState {
  a: number;
  b: number;
  c: number;
  d: number;
}

/** A generator from a seed; different seeds give unrelated sequences. */
export function seededRandom(seed: number): RandomState {
  return {
    a: mixed32(seed ^ 0x9e3779b9) | 1,
    b: mixed32(seed + 0x3c6ef372),
    c: mixed32(seed + 0x78dde6e4),
    d: mixed32(seed + 0xf1bbcdc8),
  };
}

/** The next number, 0 ≤ x < 1. */
export function nextRandom(state: RandomState): number {
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
