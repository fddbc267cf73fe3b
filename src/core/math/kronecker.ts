/**
 * A two-dimensional low-discrepancy sequence in exact 32-bit arithmetic, the same on every machine and in a shader:
 * point i is frac(shift + i·α) with α₁ = 1/p, α₂ = 1/p², p the real root of p³ = p + 1 (the plastic number), which
 * spreads a Kronecker sequence well in two dimensions.
 */
const PLASTIC = 1.324717957244746;
const ALPHA_1 = Math.round(2 ** 32 / PLASTIC) >>> 0;
const ALPHA_2 = Math.round(2 ** 32 / PLASTIC ** 2) >>> 0;
const TO_UNIT = 2 ** -32;

/** First coordinate of point `i`, 0 ≤ u < 1, shifted by a 32-bit integer. */
export function kroneckerU(i: number, shift: number): number {
  return ((Math.imul(i, ALPHA_1) + shift) >>> 0) * TO_UNIT;
}

/** Second coordinate of point `i`, 0 ≤ v < 1, shifted by a 32-bit integer. */
export function kroneckerV(i: number, shift: number): number {
  return ((Math.imul(i, ALPHA_2) + shift) >>> 0) * TO_UNIT;
}

/** A well-mixed 32-bit integer from an integer: the finalizer of MurmurHash3 (public domain). */
export function mixed32(key: number): number {
  let h = key | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
