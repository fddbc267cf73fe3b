/**
 * The transfer function of IEC 61966-2-1, from a display's linear light to the value stored in a picture file:
 *   V = 12.92·L for L ≤ 0.003 130 8, else 1.055·L^(1/2.4) − 0.055.
 * Valid from 0 to 1; beyond, the nearer end is taken, for a display can do no more. The standard's two branches meet to
 * within 3·10⁻⁸.
 */
export function srgbEncoded(linear: number): number {
  const L = Math.min(1, Math.max(0, linear));
  return L <= 0.0031308 ? 12.92 * L : 1.055 * L ** (1 / 2.4) - 0.055;
}

/** The linear light of a stored value, both 0 to 1. */
export function srgbDecoded(encoded: number): number {
  const V = Math.min(1, Math.max(0, encoded));
  return V <= 0.04045 ? V / 12.92 : ((V + 0.055) / 1.055) ** 2.4;
}
