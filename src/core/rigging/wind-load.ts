/**
 * Wind on a lamp: F = ½·ρ·v²·C_d·A, at the height of its centre, against what stands on the ground.
 *
 * ρ = 1.2 kg/m³ (air near 20 °C at sea level; 1.3 at freezing, 8 % more force). C_d 1.2 is that of a flat plate across the wind,
 * the usual figure for soft boxes and frames: common practice, no source. Steady wind: gusts swing a stand harder than their
 * speed says. The column, cables, flags and frames catch wind too and are not counted.
 *
 * Screening only: a competent person, the stand's maker and the venue decide what may stand.
 */
import { nonNegative, positive } from '../units/quantity.ts';

export const AIR_DENSITY_kg_m3 = 1.2;
export const FLAT_PLATE_DRAG = 1.2;

/** Force on a broadside area, in newtons. Screening only. */
export function windForce_N(area_m2: number, speed_m_s: number, dragCoefficient = FLAT_PLATE_DRAG): number {
  const v = nonNegative(speed_m_s, 'wind speed in m/s');
  const A = nonNegative(area_m2, 'wind area in m²');
  return 0.5 * AIR_DENSITY_kg_m3 * v ** 2 * positive(dragCoefficient, 'drag coefficient') * A;
}

/** Wind speed of a given force, in m/s: the inverse of the above. Screening only. */
export function windSpeed_m_s(force_N: number, area_m2: number, dragCoefficient = FLAT_PLATE_DRAG): number {
  const F = nonNegative(force_N, 'force in newtons');
  const CdA = positive(dragCoefficient, 'drag coefficient') * positive(area_m2, 'wind area in m²');
  return Math.sqrt((2 * F) / (AIR_DENSITY_kg_m3 * CdA));
}
