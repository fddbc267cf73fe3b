/**
 * Voltage lost along a cable: single phase ΔV = 2·l·I·ρ/a, three-phase ΔV = √3·l·I·ρ/a·PF (between lines).
 * Resistance only: the reactance of cables above about 35 mm² and the warmth of bunched or coiled ones are not counted.
 *
 * For planning only. Local codes and a qualified person decide the cable.
 */
import { nonNegative, positive } from '../units/quantity.ts';

/** Annealed copper at 20 °C, Ω·m, and its temperature coefficient, 1/K (IEC 60028). */
export const COPPER_RESISTIVITY_OHM_M = 1.7241e-8;
export const COPPER_TEMPERATURE_COEFFICIENT_PER_K = 0.00393;

/** ρ(T)/ρ(20 °C) = 1 + α·(T − 20). Planning only: local codes and a qualified person rule. */
export function copperResistanceFactor(temperature_C: number): number {
  return 1 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (temperature_C - 20);
}

/**
 * Resistance of one copper conductor, Ω/km, from its cross-section. Stranded cable may reach the IEC 60228 maximum, up to
 * 16 % more: where the cable's own figure is known, use it.
 * Planning only: local codes and a qualified person rule.
 */
export function copperResistance_ohm_km(area_mm2: number, temperature_C = 20): number {
  const a = positive(area_mm2, 'conductor cross-section in mm²') * 1e-6;
  return (1000 * COPPER_RESISTIVITY_OHM_M * copperResistanceFactor(temperature_C)) / a;
}

/**
 * Volts lost there and back; `length_m` is one way. RangeError when a quantity is negative.
 * Planning only: local codes and a qualified person rule.
 */
export function voltageDrop_V(length_m: number, current_A: number, resistance_ohm_km: number): number {
  return 2 * oneWayDrop_V(length_m, current_A, resistance_ohm_km);
}

/**
 * Volts lost between lines of a balanced three-phase load. RangeError when a quantity is negative.
 * Planning only: local codes and a qualified person rule.
 */
export function threePhaseVoltageDrop_V(
  length_m: number,
  current_A: number,
  resistance_ohm_km: number,
  powerFactor: number,
): number {
  return (
    Math.sqrt(3) *
    oneWayDrop_V(length_m, current_A, resistance_ohm_km) *
    positive(powerFactor, 'power factor')
  );
}

function oneWayDrop_V(length_m: number, current_A: number, resistance_ohm_km: number): number {
  return (
    (nonNegative(length_m, 'cable length in metres') / 1000) *
    nonNegative(current_A, 'current in amperes') *
    positive(resistance_ohm_km, 'resistance in ohms per kilometre')
  );
}
