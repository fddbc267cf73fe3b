import type { LightModel } from '../light-model/light-model.ts';
import type { Aspect } from './aspect.ts';
import { type DirectMemo, newDirectMemo, sourcesAt } from './direct-memo.ts';
import { REPLICATES } from './estimate.ts';
import type { Receptor } from './receptor.ts';
import { type Step, stepOf } from './refinement.ts';
import type { MeterPoint } from './source-sample.ts';

/** Straight light of one lamp at a meter. */
export interface LampLight extends Aspect {
  readonly flat_lx: number;
  readonly dome_lx: number;
  /** Half-width of the 95 % interval, for the receptor that was asked for. */
  readonly error_lx: number;
  /** Unblocked share of the emitting face, panes not counted. */
  readonly visible: number;
}

/** Straight light of every lamp and of the sky, in the order of the model's lamps. */
export interface DirectLight {
  readonly lamps: readonly LampLight[];
  readonly sky: { readonly flat_lx: number; readonly dome_lx: number; readonly error_lx: number };
  /** Half-width of the 95 % interval of the sum, for the receptor that was asked for. */
  readonly error_lx: number;
}

export interface DirectOptions {
  /** The receptor whose error is brought under the limit. */
  readonly receptor: Receptor;
  /** Wanted numerical error of the sum, in stops, 95 %. */
  readonly error_stops: number;
  /** At most so many samples of each source. */
  readonly maxSamples: number;
}

export const DIRECT_DEFAULTS = { error_stops: 0.02, maxSamples: 32_768 } as const;

/**
 * All sources start with a few samples; then the one that adds most to the error of the sum gets twice as many, until
 * the sum is good enough. Deterministic, and the same with a memo or without: pass the same one for a meter again and again while
 * lamps are dragged, and only those that have changed are looked at.
 */
export function directLight(
  model: LightModel,
  meter: MeterPoint,
  options: DirectOptions,
  memo: DirectMemo = newDirectMemo(),
): DirectLight {
  const { receptor } = options;
  const { lamps, sky } = sourcesAt(model, meter, memo);
  const sources = [...lamps.map(({ refinement }) => refinement), sky.refinement];
  const steps = sources.map((source) => stepOf(source, 0));
  const taken = sources.map(() => 0);
  const means = Float64Array.from(steps, ({ mean_lx }) => mean_lx[receptor]);
  const errors = Float64Array.from(steps, ({ error_lx }) => error_lx[receptor]);
  while (errorInStops(inQuadrature(errors), sum(means)) > options.error_stops) {
    const worst = worstSource(steps, errors, options.maxSamples);
    if (worst < 0) break;
    const step = stepOf(sources[worst]!, ++taken[worst]!);
    steps[worst] = step;
    means[worst] = step.mean_lx[receptor];
    errors[worst] = step.error_lx[receptor];
  }

  return {
    lamps: lamps.map(({ aspect }, i) => lampLight(steps[i]!, receptor, aspect)),
    sky: lightOf(steps.at(-1)!, receptor),
    error_lx: inQuadrature(errors),
  };
}

/** Field by field: there are as many of these as marks times lamps, and spreading is slow. */
function lampLight(step: Step, receptor: Receptor, aspect: Aspect): LampLight {
  const { mean_lx, error_lx, visible } = step;
  const { distance_m, hazed_m, incidence_deg, offAxis_deg } = aspect;
  return {
    flat_lx: mean_lx.flat,
    dome_lx: mean_lx.dome,
    error_lx: error_lx[receptor],
    visible,
    distance_m,
    hazed_m,
    incidence_deg,
    offAxis_deg,
  };
}

function lightOf({ mean_lx, error_lx }: Step, receptor: Receptor) {
  return { flat_lx: mean_lx.flat, dome_lx: mean_lx.dome, error_lx: error_lx[receptor] };
}

function sum(values: Float64Array): number {
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i]!;
  return total;
}

function inQuadrature(errors: Float64Array): number {
  let squares = 0;
  for (let i = 0; i < errors.length; i++) squares += errors[i]! * errors[i]!;
  return Math.sqrt(squares);
}

/** An error in lux beside a reading in lux, as stops; 0 beside darkness. */
export function errorInStops(error: number, reading: number): number {
  return reading > 0 ? Math.log2(1 + error / reading) : 0;
}

function worstSource(steps: readonly Step[], errors: Float64Array, maxSamples: number): number {
  let worst = -1;
  for (let i = 0; i < errors.length; i++) {
    if (errors[i] === 0 || (worst >= 0 && errors[i]! <= errors[worst]!)) continue;
    if (2 * REPLICATES * steps[i]!.points <= maxSamples) worst = i;
  }
  return worst;
}
