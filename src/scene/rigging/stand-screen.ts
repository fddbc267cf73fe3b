import { heldMoment_Nm, massToHold_kg } from '../../core/rigging/tipping.ts';
import { windForce_N, windSpeed_m_s } from '../../core/rigging/wind-load.ts';
import type { Head } from '../schema/head.ts';
import type { Lamp } from '../schema/lamp.ts';
import { type StandHeight, standHeight } from '../stands/stand-height.ts';

/** One lamp on its stand: does the stand reach, does the wind tip it. Nulls where the figures to tell are missing. */
export interface StandScreen extends StandHeight {
  readonly id: string;
  readonly name: string;
  readonly head: string;
  /** Whether the document says what it stands on. Without, nothing is screened. */
  readonly onStand: boolean;
  readonly sheltered: boolean;
  /** Head, stand and ballast. */
  readonly mass_kg: number;
  readonly ballast_kg: number;
  readonly force_N: number | null;
  readonly moment_Nm: number | null;
  readonly held_Nm: number | null;
  /** What ballast the wind asks for, beside head and stand, and how much of it is missing. */
  readonly neededBallast_kg: number | null;
  readonly moreBallast_kg: number | null;
  /** The wind in which it would begin to tip as it stands. */
  readonly tipsAt_m_s: number | null;
  readonly tips: boolean;
  readonly fails: boolean;
  /** What the document lacks, in words. */
  readonly missing: readonly string[];
}

/** Where a lamp stands: what lies below it, and whether a vehicle keeps the wind off. */
export interface StandPlace {
  readonly ground_m: number;
  readonly inVehicle: boolean;
}

/** `wind_m_s` is null where nobody has said how the wind blows. */
export function standScreen(lamp: Lamp, head: Head, place: StandPlace, wind_m_s: number | null): StandScreen {
  const { stand } = lamp;
  const { height_m, maxHeight_m, tooHigh } = standHeight(lamp, place.ground_m);
  const sheltered = stand?.sheltered ?? place.inVehicle;
  const standing_kg = (head.mass_kg ?? 0) + (stand?.mass_kg ?? 0);
  const ballast_kg = stand?.ballast_kg ?? 0;
  const mass_kg = standing_kg + ballast_kg;
  const area_m2 = head.windArea_m2;
  const footRadius_m = stand?.footRadius_m;
  const blown = stand !== undefined && !sheltered && height_m > 0;

  const force_N = blown && area_m2 !== undefined && wind_m_s !== null ? windForce_N(area_m2, wind_m_s) : null;
  const moment_Nm = force_N === null ? null : force_N * height_m;
  const held_Nm = stand && footRadius_m !== undefined ? heldMoment_Nm(mass_kg, footRadius_m) : null;
  const neededBallast_kg =
    moment_Nm === null || footRadius_m === undefined
      ? null
      : Math.max(0, massToHold_kg(moment_Nm, footRadius_m) - standing_kg);
  const tips = moment_Nm !== null && held_Nm !== null && moment_Nm > held_Nm * (1 + 1e-9);
  return {
    id: lamp.id,
    name: lamp.name ?? lamp.id,
    head: lamp.head,
    onStand: stand !== undefined,
    height_m,
    maxHeight_m,
    tooHigh,
    sheltered,
    mass_kg,
    ballast_kg,
    force_N,
    moment_Nm,
    held_Nm,
    neededBallast_kg,
    moreBallast_kg: neededBallast_kg === null ? null : Math.max(0, neededBallast_kg - ballast_kg),
    tipsAt_m_s: blown && held_Nm !== null && area_m2 ? windSpeed_m_s(held_Nm / height_m, area_m2) : null,
    tips,
    fails: tooHigh || tips,
    missing: missingOf(lamp, head, sheltered),
  };
}

function missingOf(lamp: Lamp, head: Head, sheltered: boolean): string[] {
  const { stand } = lamp;
  if (!stand) return ['stand'];
  if (sheltered) return [];
  return [
    ...(head.windArea_m2 === undefined ? ['wind area (windArea_m2 of the head)'] : []),
    ...(head.mass_kg === undefined ? ['mass of the head (mass_kg)'] : []),
    ...(stand.footRadius_m === undefined ? ['reach of the feet (footRadius_m of the stand)'] : []),
    ...(stand.mass_kg === undefined ? ['mass of the stand (mass_kg)'] : []),
    ...(stand.ballast_kg === undefined ? ['ballast (ballast_kg of the stand)'] : []),
  ];
}
