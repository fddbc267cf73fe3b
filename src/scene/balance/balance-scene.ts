import { netsForLevel } from '../../core/balance/nets-for-level.ts';
import { stopsAbove } from '../../core/exposure/stops.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Reading } from '../../core/meter/meter.ts';
import { chosenCamera } from '../camera/scene-camera.ts';
import { entryNamed, LIBRARY } from '../library/library.ts';
import { type MarkReport, type MeterReport, meterScene } from '../meter/meter-scene.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import { holdIn } from '../readings/corrected-model.ts';
import type { Corrections } from '../readings/corrections.ts';
import { inputAfterReadings_stops } from '../readings/known-better.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Lamp } from '../schema/lamp.ts';
import type { Mark } from '../schema/mark.ts';
import { readLampAlone, receptorOf } from './lamp-light-at-mark.ts';
import { levelsForStops } from './levels-for-stops.ts';
import { type Remedy, remediesFor } from './remedies.ts';
import type { Want } from './wants.ts';

/** Levels for wanted stops: the answer of `keyfall balance --json`, field by field. */
export interface BalanceReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  readonly exposure: MeterReport['exposure'];
  /** Whether every want is met. */
  readonly reached: boolean;
  readonly wants: readonly WantReport[];
  readonly lamps: readonly LevelReport[];
  readonly marks: readonly MarkChange[];
}

export interface WantReport {
  readonly mark: string;
  readonly lamp: string | null;
  readonly wanted_stops: number;
  /** −Infinity for no light. */
  readonly now_stops: number;
  readonly then_stops: number;
  /** How far `then` is off, in stops: what levels cannot do. */
  readonly residual_stops: number;
  /** Of the light that is counted on: the computation (95 %) and the inputs. */
  readonly uncertainty: MarkReport['uncertainty'];
  readonly reached: boolean;
  /** Why it is not met: a lamp at its full level, light that no level takes away, or another want of the same lamps. */
  readonly why: 'full' | 'other-light' | 'other-wants' | null;
  readonly remedies: readonly Remedy[];
}

export interface LevelReport {
  readonly id: string;
  readonly name: string;
  readonly level_now: number;
  readonly level: number;
  /** For a head that dims no further: nets or scrims to put in, and the level to set behind them. */
  readonly nets_stops: number;
  readonly dimmer: number;
}

export interface MarkChange {
  readonly id: string;
  readonly name: string;
  readonly now_stops: number;
  readonly then_stops: number;
}

export interface BalanceRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  readonly wants: readonly Want[];
  /** What the readings of the night say, where there are any. */
  readonly corrections?: Corrections | null;
  /** The light model of a variant of the scene: with its files, and corrected as the readings say. */
  readonly compile: (document: SceneDocument) => LightModel;
}

/** Nearer than this no meter tells apart: a want is met. */
const MET_stops = 0.1;
/** Of what levels are computed from, numerically. */
const ERROR_stops = 0.03;
/** A smaller change of a lamp is not worth the walk to it. */
const LEAST_CHANGE_stops = 0.03;
/** Common practice, no source: electronic ballasts of discharge lamps dim to about half of the light, magnetic ones not at all. */
const LEAST_DISCHARGE_LEVEL = 0.5;

/** Finds levels in a scene whose setup has been applied. Throws SceneError where a want is of a lamp that never gets there. */
export function balanceScene(document: SceneDocument, request: BalanceRequest): BalanceReport {
  const camera = chosenCamera(document, request.camera);
  // A lamp that is on at level 0 is looked at as if it were full up: what it would give has to be known.
  const lit = { ...document, lamps: (document.lamps ?? []).map(lifted) };
  const model = request.compile(lit);
  const report = meterScene(lit, model, {
    camera: camera.id,
    light: 'all',
    corrections: request.corrections,
  });
  const { zero } = report.exposure;
  const lamps = document.lamps ?? [];
  const present = lamps.map(levelOf);
  const litLevels = lit.lamps.map(levelOf);
  const zeroFor = (mark: Mark) => (receptorOf(mark) === 'flat' ? zero.flat_lx : zero.dome_lx);
  const markNamed = (id: string) => (document.marks ?? []).find((mark) => mark.id === id)!;

  const { corrections } = request;
  const holds = corrections ? holdIn(corrections, lit) : [];
  const uncertaintyOf = (reading: Reading): Reading['uncertainty'] => {
    if (!corrections) return reading.uncertainty;
    const sigma = model.haze?.extinction_per_m ?? 0;
    const input_stops = inputAfterReadings_stops(reading, sigma, corrections, holds);
    return { ...reading.uncertainty, input_stops };
  };

  const light = request.wants.map((want): LightOfWant => {
    const mark = markNamed(want.mark);
    const wanted_lx = zeroFor(mark) * 2 ** want.stops;
    if (want.lamp === null) {
      const reading = report.marks.find((m) => m.id === want.mark)!;
      const full_lx = reading.lamps.map((l, i) => perLevel(l.illuminance_lx, litLevels[i]!));
      return { wanted_lx, full_lx, other_lx: reading.sky_lx, uncertainty: reading.uncertainty };
    }
    const reading = readLampAlone(lit, model, camera, mark, want.lamp, ERROR_stops);
    const i = lamps.findIndex((l) => l.id === want.lamp);
    const full_lx = lamps.map((_, k) => (k === i ? perLevel(reading.illuminance_lx, litLevels[k]!) : 0));
    return { wanted_lx, full_lx, other_lx: 0, uncertainty: uncertaintyOf(reading) };
  });
  refuseUnlit(request.wants, light);

  const free = lamps.flatMap((lamp, i) => (lamp.on === false ? [] : [i]));
  const levels = worthwhileLevels(light, present, free);

  const wants = request.wants.map((want, w): WantReport => {
    const { full_lx, other_lx, uncertainty } = light[w]!;
    const mark = markNamed(want.mark);
    const stopsAt = (at: readonly number[]) =>
      stopsAbove(other_lx + full_lx.reduce((sum, lx, i) => sum + lx * at[i]!, 0), zeroFor(mark));
    const then_stops = stopsAt(levels);
    const residual_stops = then_stops - want.stops;
    const reached = Math.abs(residual_stops) <= MET_stops;
    const why = reached ? null : whyNot(residual_stops, full_lx, levels, free);
    const remedies =
      why === 'full'
        ? remediesFor(
            { document: lit, model, camera, mark, compile: request.compile },
            { full_lx, other_lx, levels, zero_lx: zeroFor(mark), wanted_stops: want.stops, lamp: want.lamp },
          )
        : [];
    return {
      mark: want.mark,
      lamp: want.lamp,
      wanted_stops: want.stops,
      now_stops: stopsAt(present),
      then_stops,
      residual_stops,
      uncertainty,
      reached,
      why,
      remedies,
    };
  });

  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    camera: camera.id,
    exposure: report.exposure,
    reached: wants.every((want) => want.reached),
    wants,
    lamps: lamps.map((lamp, i) => levelReport(document, lamp, present[i]!, levels[i]!)),
    marks: report.marks.map((mark): MarkChange => {
      const zero_lx = mark.receptor === 'flat' ? zero.flat_lx : zero.dome_lx;
      const stopsAt = (at: readonly number[]) =>
        stopsAbove(
          mark.lamps.reduce(
            (sum, l, i) => sum + perLevel(l.illuminance_lx, litLevels[i]!) * at[i]!,
            mark.sky_lx,
          ),
          zero_lx,
        );
      return { id: mark.id, name: mark.name, now_stops: stopsAt(present), then_stops: stopsAt(levels) };
    }),
  };
}

interface LightOfWant {
  readonly wanted_lx: number;
  /** By lamp, at full level. */
  readonly full_lx: readonly number[];
  /** What is there whatever the levels are. */
  readonly other_lx: number;
  readonly uncertainty: MarkReport['uncertainty'];
}

/** The levels, with lamps left alone whose change no meter would tell; the others then make up for them. */
function worthwhileLevels(
  light: readonly LightOfWant[],
  present: readonly number[],
  free: readonly number[],
): readonly number[] {
  const fixed_lx = light.map(({ full_lx, other_lx }) =>
    full_lx.reduce((sum, lx, i) => (free.includes(i) ? sum : sum + lx * present[i]!), other_lx),
  );
  const solved = levelsForStops(
    light.map(({ full_lx, wanted_lx }, w) => ({
      full_lx: free.map((i) => full_lx[i]!),
      other_lx: fixed_lx[w]!,
      wanted_lx,
    })),
    free.map((i) => present[i]!),
  );
  const moved = free.filter(
    (i, k) =>
      !(Math.abs(Math.log2(solved[k]! / present[i]!)) < LEAST_CHANGE_stops) && solved[k] !== present[i],
  );
  if (moved.length < free.length) return worthwhileLevels(light, present, moved);
  return present.map((level, i) => (free.includes(i) ? solved[free.indexOf(i)]! : level));
}

function levelOf(lamp: Lamp): number {
  return lamp.on === false ? 0 : (lamp.level ?? 1);
}

function lifted(lamp: Lamp): Lamp {
  return lamp.on !== false && lamp.level === 0 ? { ...lamp, level: 1 } : lamp;
}

function perLevel(illuminance_lx: number, level: number): number {
  return level > 0 ? illuminance_lx / level : 0;
}

function refuseUnlit(wants: readonly Want[], light: readonly LightOfWant[]): void {
  const problems = wants.flatMap((want, w) => {
    if (light[w]!.full_lx.some((lx) => lx > 0)) return [];
    const at = want.lamp === null ? want.mark : `${want.mark}:${want.lamp}`;
    const found =
      want.lamp === null
        ? `${at}, where no lamp that is on gives any light`
        : `${at}, but no light of ${want.lamp} reaches ${want.mark}`;
    const expected = 'a mark that the lamp lights: aim it, or take away what is in its way';
    return [problemAt(undefined, ['--want'], { found, expected })];
  });
  if (problems.length > 0) throw new SceneError(problems);
}

function whyNot(
  residual_stops: number,
  full_lx: readonly number[],
  levels: readonly number[],
  free: readonly number[],
): NonNullable<WantReport['why']> {
  const lights = free.filter((i) => full_lx[i]! > 0);
  if (residual_stops < 0 && lights.every((i) => levels[i]! > 1 - 1e-6)) return 'full';
  // What a lamp could still add must matter: a trace that is not full up is no reason.
  const missing = lights.filter((i) => levels[i]! <= 1 - 1e-6);
  const most = full_lx.reduce((sum, lx, i) => sum + lx * levels[i]!, 0);
  const rest = missing.reduce((sum, i) => sum + full_lx[i]! * (1 - levels[i]!), 0);
  if (residual_stops < 0 && rest < 0.02 * most) return 'full';
  if (residual_stops > 0 && lights.every((i) => levels[i]! < 1e-6)) return 'other-light';
  return 'other-wants';
}

function levelReport(document: SceneDocument, lamp: Lamp, level_now: number, level: number): LevelReport {
  const head = entryNamed(document.heads, LIBRARY.heads, lamp.head)!;
  const dims = head.electrical?.kind !== 'discharge' || level === 0 || level === level_now;
  const { nets_stops, level: dimmer } = dims
    ? { nets_stops: 0, level }
    : netsForLevel(level, LEAST_DISCHARGE_LEVEL);
  return { id: lamp.id, name: lamp.name ?? lamp.id, level_now, level, nets_stops, dimmer };
}
