/**
 * The tolerances the whole suite shares. A test that needs a wider one says so where it does, with the reason.
 * Relative unless the name says otherwise.
 */

/** Two ways to write one thing: only rounding may differ. */
export const IDENTITY = 1e-12;

/** Deterministic numerical integration against a closed form. */
export const QUADRATURE = 1e-4;

/** Exposure arithmetic, in stops. */
export const EXPOSURE_STOPS = 0.01;

/** Half a unit in the last printed digit of a published figure, e.g. `halfLastDigit(3)` for 0.123. */
export function halfLastDigit(decimals: number): number {
  return 0.5 * 10 ** -decimals;
}
