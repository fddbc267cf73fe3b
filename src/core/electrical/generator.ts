import { nonNegative, positive } from '../units/quantity.ts';

/** Load a generator to four fifths of its rating: common practice, no source. */
export const GENERATOR_LOADING = 0.8;

/**
 * The least rating, in kVA, of a generator for these loads: ΣVA/loading. Apparent powers of unlike power factors are added
 * as numbers, which errs on the large side. RangeError when a load is negative or the loading not above zero.
 * Planning only: local codes and a qualified person rule; strike current and altitude are not counted.
 */
export function generatorRating_kVA(loads_VA: readonly number[], loading = GENERATOR_LOADING): number {
  const total_VA = loads_VA.reduce((sum, load) => sum + nonNegative(load, 'load in volt-amperes'), 0);
  return total_VA / positive(loading, 'generator loading') / 1000;
}
