import { nonNegative, positive } from '../units/quantity.ts';

/** Load a generator to four fifths of its rating: common practice, no source. */
export const GENERATOR_LOADING = 0.8;

/** Ratings that sets are commonly hired in, kVA: common practice, no source. */
export const USUAL_GENERATORS_kVA: readonly number[] = [
  1, 2, 3, 5, 6.5, 8, 10, 15, 20, 30, 45, 60, 80, 100, 125, 150, 200, 250, 300, 400, 500,
];

/**
 * The least rating, in kVA, of a generator for these loads: ΣVA/loading. Apparent powers of unlike power factors are added
 * as numbers, which errs on the large side. RangeError when a load is negative or the loading not above zero.
 * Planning only: local codes and a qualified person rule; strike current and altitude are not counted.
 */
export function generatorRating_kVA(loads_VA: readonly number[], loading = GENERATOR_LOADING): number {
  const total_VA = loads_VA.reduce((sum, load) => sum + nonNegative(load, 'load in volt-amperes'), 0);
  return total_VA / positive(loading, 'generator loading') / 1000;
}

/** The smallest usual set of at least this rating, or null above the largest. Planning only: a qualified person rules. */
export function usualGenerator_kVA(rating_kVA: number): number | null {
  const least = nonNegative(rating_kVA, 'generator rating in kVA');
  return USUAL_GENERATORS_kVA.find((usual) => usual >= least - 1e-9) ?? null;
}
