/**
 * Reciprocal colour temperature M = 10⁶/T, in MK⁻¹ (mired). A conversion filter adds nearly the same number of mired to
 * every lamp, which is why gels are named by it: negative shifts are blue, positive ones orange.
 */
export function miredFromKelvin(cct_K: number): number {
  return 1e6 / cct_K;
}

export function kelvinFromMired(mired: number): number {
  return 1e6 / mired;
}

/** The shift that turns one colour temperature into another: + toward orange, − toward blue. */
export function miredShift(from_K: number, to_K: number): number {
  return miredFromKelvin(to_K) - miredFromKelvin(from_K);
}
