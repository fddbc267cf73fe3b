/**
 * Cable sizes that are made, and what their conductors may have at most.
 *
 * Source: IEC 60228:2004, Table 3, flexible copper conductors of class 5, plain, maximum direct-current resistance at 20 °C.
 * What a cable may carry without getting too hot (its ampacity) depends on how it lies and is no part of this.
 */
import { copperResistance_ohm_km, copperResistanceFactor } from './voltage-drop.ts';

/** [nominal cross-section in mm², maximum resistance in Ω/km]. */
const CLASS_5: readonly (readonly [number, number])[] = [
  [0.5, 39],
  [0.75, 26],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
  [25, 0.78],
  [35, 0.554],
  [50, 0.386],
  [70, 0.272],
  [95, 0.206],
  [120, 0.161],
  [150, 0.129],
  [185, 0.106],
  [240, 0.0801],
  [300, 0.0641],
];

/** How much the table's conductors are above solid copper of their nominal section, at most. */
const STRANDED_FACTOR = 1.16;

/** Conductor temperature of a fully loaded PVC-insulated cable (IEC 60364-5-52, from memory). */
export const FULLY_LOADED_C = 70;

/** The nominal cross-sections, in mm², thinnest first. */
export const CABLE_SIZES_mm2: readonly number[] = CLASS_5.map(([area_mm2]) => area_mm2);

/**
 * The most that a flexible conductor of this section may have, Ω/km: the table where the section is in it, otherwise 16 % over
 * solid copper. Planning only: local codes and a qualified person rule.
 */
export function flexibleResistance_ohm_km(area_mm2: number, temperature_C = 20): number {
  const listed = CLASS_5.find(([nominal]) => nominal === area_mm2);
  if (!listed) return STRANDED_FACTOR * copperResistance_ohm_km(area_mm2, temperature_C);
  return listed[1] * copperResistanceFactor(temperature_C);
}

/**
 * The next thicker cable for which `enough` holds, or null when even the thickest will not do.
 * Planning only: local codes and a qualified person rule.
 */
export function nextCableSize_mm2(area_mm2: number, enough: (area_mm2: number) => boolean): number | null {
  return CABLE_SIZES_mm2.find((size) => size > area_mm2 && enough(size)) ?? null;
}
