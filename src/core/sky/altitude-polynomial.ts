/** One stretch of altitudes of a polynomial in a/90, down to `from_deg`. */
export interface Stretch {
  readonly from_deg: number;
  readonly coefficients: readonly [number, number, number, number];
}

/** The polynomial of the stretch that holds the altitude, the highest stretch first; null under all of them. */
export function atAltitude(stretches: readonly Stretch[], altitude_deg: number): number | null {
  const stretch = stretches.find(({ from_deg }) => altitude_deg >= from_deg);
  if (!stretch) return null;
  const x = altitude_deg / 90;
  return stretch.coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}
