/**
 * When a stand of three legs begins to tip: F·h > m·g·r/2.
 *
 *   F wind force at height h, m everything that stands on the legs, r radius of the circle through the feet
 *
 * It tips over the line between two feet, which passes the middle at r·cos 60° = r/2: the worst direction. The mass is taken to
 * stand over the middle, which holds for a stand that is level. No safety factor: this is the edge.
 *
 * Screening only: a competent person, the stand's maker and the venue decide what may stand.
 */
import { nonNegative, positive } from '../units/quantity.ts';

export const GRAVITY_m_s2 = 9.81;

/** From the middle to the line between two feet of three, in metres. */
export function tippingArm_m(footRadius_m: number): number {
  return positive(footRadius_m, 'foot radius in metres') / 2;
}

/** The moment that a mass on three legs can hold, N·m. Screening only. */
export function heldMoment_Nm(mass_kg: number, footRadius_m: number): number {
  return nonNegative(mass_kg, 'mass in kilograms') * GRAVITY_m_s2 * tippingArm_m(footRadius_m);
}

/** The mass that a moment needs on three legs so as not to tip, in kilograms, without any margin. Screening only. */
export function massToHold_kg(moment_Nm: number, footRadius_m: number): number {
  return nonNegative(moment_Nm, 'moment in N·m') / (GRAVITY_m_s2 * tippingArm_m(footRadius_m));
}
