/**
 * Voltage lost along a cable.
 *
 *   single phase, there and back   ΔV = 2·l·I·R
 *   three phases to neutral        ΔV₁ = l·R·(2·I₁ − (I₂ + I₃)/2)    and so on; balanced: l·I·R, and √3 times that between lines
 *
 * The second line is ohmic loss in the phase and in an equal neutral, each current at 120° to the others: what lies along the
 * phase's own voltage. Currents are taken in phase with their voltages, which errs on the large side. Resistance only: the
 * reactance of cables above about 35 mm² and the warmth of bunched or coiled ones are not counted.
 *
 * For planning only. Local codes and a qualified person decide the cable.
 */
import { nonNegative, positive } from '../units/quantity.ts';

/** Annealed copper at 20 °C, Ω·m, and its temperature coefficient, 1/K (IEC 60028). */
export const COPPER_RESISTIVITY_OHM_M = 1.7241e-8;
export const COPPER_TEMPERATURE_COEFFICIENT_PER_K = 0.00393;

/**
 * IEC 60364-5-52, Table G.52.1: no more than 3 % on lighting fed from a public network (from memory); NFPA 70 advises the same
 * 3 % for a branch circuit (informational note to 210.19).
 */
export const LIGHTING_DROP_LIMIT_PERCENT = 3;

/** Currents of the three phases. */
export type PhaseCurrents = readonly [number, number, number];

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
 * Volts lost between each phase and neutral. Negative on a phase that carries little beside two that carry much: its voltage
 * rises. RangeError when a quantity is negative. Planning only: local codes and a qualified person rule.
 */
export function phaseVoltageDrops_V(
  length_m: number,
  currents_A: PhaseCurrents,
  resistance_ohm_km: number,
): [number, number, number] {
  const [a, b, c] = currents_A.map((current) => oneWayDrop_V(length_m, current, resistance_ohm_km)) as [
    number,
    number,
    number,
  ];
  return [2 * a - (b + c) / 2, 2 * b - (c + a) / 2, 2 * c - (a + b) / 2];
}

function oneWayDrop_V(length_m: number, current_A: number, resistance_ohm_km: number): number {
  return (
    (nonNegative(length_m, 'cable length in metres') / 1000) *
    nonNegative(current_A, 'current in amperes') *
    positive(resistance_ohm_km, 'resistance in ohms per kilometre')
  );
}
