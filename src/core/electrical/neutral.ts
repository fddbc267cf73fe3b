/**
 * What flows in the neutral of a three-phase supply.
 *
 *   unequal phases:   I_N = √(I₁² + I₂² + I₃² − I₁I₂ − I₂I₃ − I₃I₁)      (phasors 120° apart, equal power factors)
 *   third harmonics:  I_N = 3·share·I                                     (they are in step in all three phases and add up)
 *
 * Unlike power factors change the first by more or less; a broken neutral puts up to the line voltage on heads, which no
 * figure here covers. For planning only: local codes and a qualified person rule.
 */
import { nonNegative } from '../units/quantity.ts';
import type { PhaseCurrents } from './voltage-drop.ts';

/** Neutral current of unequal phases, in amperes. Planning only: local codes and a qualified person rule. */
export function neutralCurrent_A(currents_A: PhaseCurrents): number {
  const [a, b, c] = currents_A.map((I) => nonNegative(I, 'current in amperes')) as [number, number, number];
  return Math.sqrt(Math.max(0, a * a + b * b + c * c - a * b - b * c - c * a));
}

/**
 * Neutral current of the third harmonics of three equal phases; `share` is the harmonic over the phase's current.
 * Planning only: local codes and a qualified person rule.
 */
export function thirdHarmonicNeutral_A(phase_A: number, share: number): number {
  return 3 * nonNegative(share, 'share of the third harmonic') * nonNegative(phase_A, 'current in amperes');
}
