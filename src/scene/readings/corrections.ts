import { type Fit, fitReadings, type ReadingModel } from '../../core/readings/fit-readings.ts';
import { type Told, toldApart, WEAKER } from '../../core/readings/told-apart.ts';
import { compileScene, newCompileMemo } from '../compile/compile-scene.ts';
import type { SceneFiles } from '../files/scene-files.ts';
import { LIBRARY } from '../library/library.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Lamp } from '../schema/lamp.ts';
import { type ChangedLamp, changedSince } from './as-taken.ts';
import { planCovariance, planCovarianceWeakened, READING_stops } from './plan-trust.ts';
import { predictReadings, receptorOfReading, scenesOfReadings } from './predict-readings.ts';

/**
 * What the night's readings say about the plan: how far each lamp's output and the haze are from it, what is still open, and
 * how well each reading is then explained. The document stays as it is; predictions are made with these.
 *
 * Readings belong to the scene as the document has it, before any setup; each counts for its lamps as they stood when it
 * was taken. What they say of a lamp's output goes with the lamp, however it stands now.
 */
export interface Corrections {
  readonly lamps: readonly LampCorrection[];
  /** Null in clear air. */
  readonly haze: HazeCorrection | null;
  readonly readings: readonly ReadingResidual[];
  /** Readings that no logarithm can use, and why. */
  readonly unused: readonly { readonly id: string; readonly why: Unused }[];
  /** Names of what the readings cannot tell apart: ids of lamps, and `haze`. */
  readonly together: readonly (readonly string[])[];
  /**
   * What a hand calculation makes of the readings alone, by inverse square and the haze law: light that haze scatters into
   * the meter is not counted, so the haze seems thinner than it is. Null where the readings cannot tell.
   */
  readonly byHand: { readonly visibility_m: number; readonly lamps: readonly (number | null)[] } | null;
  /** Before and after, (lamps + 1)², haze last, stops². */
  readonly planned: Float64Array;
  readonly covariance: Float64Array;
}

export interface LampCorrection {
  readonly id: string;
  readonly name: string;
  readonly head: string;
  /** Output over the plan, stops, and what it may still be off by. */
  readonly output_stops: number;
  readonly plusMinus_stops: number;
  readonly planned_stops: number;
  /** Whether any reading was taken with it. */
  readonly metered: boolean;
  /** What the readings alone say, without the plan; null where they cannot tell. */
  readonly alone_stops: number | null;
}

export interface HazeCorrection {
  readonly planned_m: number;
  readonly visibility_m: number;
  /** Extinction over the plan, stops: above zero is thicker. */
  readonly extinction_stops: number;
  readonly plusMinus_stops: number;
  readonly plannedPlusMinus_stops: number;
  readonly alone_m: number | null;
}

export interface ReadingResidual {
  readonly id: string;
  readonly name: string;
  readonly mark: string;
  readonly receptor: 'flat' | 'dome';
  readonly lamps: readonly string[];
  readonly changedSince: readonly ChangedLamp[];
  readonly measured_lx: number;
  /** By the plan, and after the corrections. */
  readonly planned_lx: number;
  readonly predicted_lx: number;
  /** Measured over predicted, stops. */
  readonly plannedResidual_stops: number;
  readonly residual_stops: number;
  /** Further off than a third of a stop: a slip of the meter, of the plan, or something in the way. */
  readonly outlier: boolean;
}

const OUTLIER_stops = 1 / 3;
/** The light is computed anew in the haze that was found, until it is found again. */
const MOST_ROUNDS = 5;
const SAME_HAZE_stops = 0.03;
/** A flatter slope is noise, and would send the next try anywhere. */
const LEAST_SLOPE = -0.2;
/** A thousand times as thick or as thin as planned: past that no haze explains anything. */
const FURTHEST_stops = 10;

/** Null where the document has no readings. `document`: before any setup. */
export function correctionsFrom(document: SceneDocument, files: SceneFiles): Corrections | null {
  const readings = document.readings ?? [];
  if (readings.length === 0) return null;
  const memo = newCompileMemo();
  const compile = (variant: SceneDocument) => compileScene(variant, files, LIBRARY, memo);
  const model = compile(document);
  const scenes = scenesOfReadings(document, readings, compile);
  const planned = predictReadings(readings, scenes);
  const usable = readings.flatMap((_, k) => (whyLeftOut(planned[k]!) === null ? [k] : []));

  const prior = planCovariance(model.lamps);
  const n = model.lamps.length + 1;
  const sigma = model.haze?.extinction_per_m ?? 0;
  const question = (light: readonly ReadingModel[], at_stops: number, P: Float64Array) => ({
    readings: light,
    lamps: model.lamps.length,
    extinction_per_m: sigma * 2 ** at_stops,
    at_stops,
    prior: P,
    reading_stops: READING_stops,
  });

  let light = usable.map((k) => planned[k]!);
  let at_stops = 0;
  let fit = fitReadings(question(light, at_stops, prior));
  let before: { readonly at_stops: number; readonly off: number } | null = null;
  for (let round = 0; round < MOST_ROUNDS && sigma > 0; round++) {
    const off = fit.x_stops[n - 1]! - at_stops;
    if (Math.abs(off) < SAME_HAZE_stops) break;
    const next_stops = clamped(secant(before, { at_stops, off }));
    const again = predictReadings(
      usable.map((k) => readings[k]!),
      usable.map((k) => scenes[k]!),
      sigma * 2 ** next_stops,
    );
    if (again.some((reading) => whyUnused(reading) !== null)) break;
    before = { at_stops, off };
    at_stops = next_stops;
    light = [...again];
    fit = fitReadings(question(light, at_stops, prior));
  }

  const alone = fitReadings(question(light, at_stops, planCovarianceWeakened(prior, n, WEAKER)));
  const plan_stops = Array.from({ length: n }, (_, i) => Math.sqrt(prior[i * n + i]!));
  const concerned = concernedBy(light, n, sigma > 0);
  const told = toldApart(alone.covariance, plan_stops, concerned);
  const withoutGlow = planned.map((reading) => ({
    ...reading,
    lamps: reading.lamps.map((lamp) => ({ ...lamp, glow_lx: 0 })),
  }));
  const byHand = fitReadings(
    question(
      usable.map((k) => withoutGlow[k]!),
      0,
      planCovarianceWeakened(prior, n, WEAKER),
    ),
  );
  const handTold = toldApart(byHand.covariance, plan_stops, concerned).told;
  const nameOf = (i: number) => (i === n - 1 ? HAZE : model.lamps[i]!.id);

  return {
    lamps: (document.lamps ?? []).map((lamp, i) =>
      lampCorrection(lamp, i, fit, alone, told, plan_stops[i]!, concerned),
    ),
    haze: document.haze ? hazeCorrection(document.haze.visibility_m, fit, alone, told, plan_stops) : null,
    readings: usable.map((k, u) => {
      const reading = readings[k]!;
      const planned_lx = totalOf(planned[k]!);
      const residual_stops = fit.residual_stops[u]!;
      return {
        id: reading.id,
        name: reading.name ?? reading.id,
        mark: reading.mark,
        receptor: receptorOfReading(document, reading),
        lamps: reading.lamps,
        changedSince: changedSince(document, reading),
        measured_lx: reading.illuminance_lx,
        planned_lx,
        predicted_lx: fit.predicted_lx[u]!,
        plannedResidual_stops: Math.log2(reading.illuminance_lx / planned_lx),
        residual_stops,
        outlier: Math.abs(residual_stops) > OUTLIER_stops,
      };
    }),
    unused: readings.flatMap((reading, k) => {
      const why = whyLeftOut(planned[k]!);
      return why === null ? [] : [{ id: reading.id, why }];
    }),
    together: told.together.map((group) => group.map(nameOf)),
    byHand:
      document.haze && handTold[n - 1]
        ? {
            visibility_m: document.haze.visibility_m * 2 ** -byHand.x_stops[n - 1]!,
            lamps: model.lamps.map((_, i) => (handTold[i] ? byHand.x_stops[i]! : null)),
          }
        : null,
    planned: prior,
    covariance: fit.covariance,
  };
}

/** Where the haze that is found would be the haze it was computed in, by the line through the last two tries. */
function secant(
  before: { readonly at_stops: number; readonly off: number } | null,
  now: { readonly at_stops: number; readonly off: number },
): number {
  const slope = before ? (now.off - before.off) / (now.at_stops - before.at_stops) : -1;
  return now.at_stops - now.off / Math.min(slope, LEAST_SLOPE);
}

function clamped(stops: number): number {
  return Math.min(FURTHEST_stops, Math.max(-FURTHEST_stops, stops));
}

/** How the haze is called among lamps. */
export const HAZE = 'haze';

function lampCorrection(
  lamp: Lamp,
  i: number,
  fit: Fit,
  alone: Fit,
  told: Told,
  planned_stops: number,
  concerned: readonly number[],
): LampCorrection {
  const n = fit.x_stops.length;
  return {
    id: lamp.id,
    name: lamp.name ?? lamp.id,
    head: lamp.head,
    output_stops: fit.x_stops[i]!,
    plusMinus_stops: Math.sqrt(fit.covariance[i * n + i]!),
    planned_stops,
    metered: concerned.includes(i),
    alone_stops: told.told[i] ? alone.x_stops[i]! : null,
  };
}

function hazeCorrection(
  planned_m: number,
  fit: Fit,
  alone: Fit,
  told: Told,
  plan_stops: readonly number[],
): HazeCorrection {
  const n = fit.x_stops.length;
  const h = n - 1;
  return {
    planned_m,
    visibility_m: planned_m * 2 ** -fit.x_stops[h]!,
    extinction_stops: fit.x_stops[h]!,
    plusMinus_stops: Math.sqrt(fit.covariance[n * n - 1]!),
    plannedPlusMinus_stops: plan_stops[h]!,
    alone_m: told.told[h] ? planned_m * 2 ** -alone.x_stops[h]! : null,
  };
}

function concernedBy(light: readonly ReadingModel[], n: number, haze: boolean): number[] {
  const lamps = new Set(light.flatMap((reading) => reading.lamps.map(({ lamp }) => lamp)));
  return [...[...lamps].sort((a, b) => a - b), ...(haze && lamps.size > 0 ? [n - 1] : [])];
}

type Unused = 'dark' | 'unlit' | 'far-off';

/**
 * Thirty-two times the plan or a thirty-second of it is no lamp that differs from its sheet but a slip of the pen, another lamp
 * or another place; to correct by it would carry the slip into every answer. Common practice, no source.
 */
const FAR_OFF_stops = 5;

function whyLeftOut(planned: ReadingModel): Unused | null {
  const why = whyUnused(planned);
  if (why !== null) return why;
  return Math.abs(Math.log2(planned.measured_lx / totalOf(planned))) > FAR_OFF_stops ? 'far-off' : null;
}

function whyUnused(reading: ReadingModel): 'dark' | 'unlit' | null {
  if (!(reading.measured_lx > 0)) return 'dark';
  return reading.lamps.length === 0 ? 'unlit' : null;
}

function totalOf({ sky_lx, lamps }: ReadingModel): number {
  return lamps.reduce((sum, lamp) => sum + lamp.attenuated_lx + lamp.glow_lx, sky_lx);
}
