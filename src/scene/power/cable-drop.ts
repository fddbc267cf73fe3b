import {
  FULLY_LOADED_C,
  flexibleResistance_ohm_km,
  nextCableSize_mm2,
} from '../../core/electrical/cable-size.ts';
import {
  copperResistance_ohm_km,
  type PhaseCurrents,
  phaseVoltageDrops_V,
  voltageDrop_V,
} from '../../core/electrical/voltage-drop.ts';
import type { Supply } from '../schema/supply.ts';

/** What a supply's cable loses on its fullest phase. */
export interface CableDrop {
  readonly length_m: number;
  readonly area_mm2: number;
  readonly drop_V: number;
  readonly drop_percent: number;
  readonly over: boolean;
  /** The same in flexible copper of the highest resistance, fully loaded and warm. */
  readonly warm_percent: number;
  /** The next size that keeps the limit, and its drop; null where none is needed or none will do. */
  readonly cure: { readonly area_mm2: number; readonly drop_percent: number } | null;
}

export interface DropRequest {
  readonly limit_percent: number;
  readonly temperature_C: number;
}

/** Null for a supply whose cable is not given. `currents_A` holds one current, or one for each of three phases. */
export function cableDrop(
  supply: Supply,
  currents_A: readonly number[],
  request: DropRequest,
): CableDrop | null {
  const { cable, volts } = supply;
  if (!cable) return null;
  const cold = (area_mm2: number) =>
    percentIn(supply, currents_A, copperResistance_ohm_km(area_mm2, request.temperature_C));
  const keeps = (area_mm2: number) => cold(area_mm2) <= request.limit_percent + SLACK_PERCENT;

  const drop_percent = cold(cable.area_mm2);
  const over = !keeps(cable.area_mm2);
  const cure_mm2 = over ? nextCableSize_mm2(cable.area_mm2, keeps) : null;
  return {
    ...cable,
    drop_V: (drop_percent * volts) / 100,
    drop_percent,
    over,
    warm_percent: percentIn(supply, currents_A, flexibleResistance_ohm_km(cable.area_mm2, FULLY_LOADED_C)),
    cure: cure_mm2 === null ? null : { area_mm2: cure_mm2, drop_percent: cold(cure_mm2) },
  };
}

/** Whether a supply's cable, where one is given, keeps the limit with these currents. */
export function dropIsKept(supply: Supply, currents_A: readonly number[], request: DropRequest): boolean {
  if (!supply.cable) return true;
  const resistance_ohm_km = copperResistance_ohm_km(supply.cable.area_mm2, request.temperature_C);
  return percentIn(supply, currents_A, resistance_ohm_km) <= request.limit_percent + SLACK_PERCENT;
}

/** So that a limit that is met exactly is not lost to rounding. */
const SLACK_PERCENT = 1e-9;

function percentIn(supply: Supply, currents_A: readonly number[], resistance_ohm_km: number): number {
  return (100 * worstDrop_V(supply.cable!.length_m, currents_A, resistance_ohm_km)) / supply.volts;
}

function worstDrop_V(length_m: number, currents_A: readonly number[], resistance_ohm_km: number): number {
  if (currents_A.length === 1) return voltageDrop_V(length_m, currents_A[0]!, resistance_ohm_km);
  return Math.max(
    ...phaseVoltageDrops_V(length_m, currents_A as unknown as PhaseCurrents, resistance_ohm_km),
  );
}
