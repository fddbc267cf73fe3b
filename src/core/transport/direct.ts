import { hazedLength_m } from '../haze/transmittance.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { degreesFromRadians } from '../math/angle.ts';
import { angleBetween, length, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { type Estimate, error_lx, mean_lx, newEstimate, openShare, REPLICATES, refine } from './estimate.ts';
import { lampSampler } from './lamp-sampler.ts';
import type { Receptor } from './receptor.ts';
import { skySampler } from './sky-sampler.ts';
import type { MeterPoint } from './source-sample.ts';

/** Straight light of one lamp at a meter. */
export interface LampLight {
  readonly flat_lx: number;
  readonly dome_lx: number;
  /** Half-width of the 95 % interval, for the receptor that was asked for. */
  readonly error_lx: number;
  /** Unblocked share of the emitting face, panes not counted. */
  readonly visible: number;
  readonly distance_m: number;
  /** How much of that lies in haze. */
  readonly hazed_m: number;
  /** Between where the receptor points and the lamp. */
  readonly incidence_deg: number;
  /** Between the lamp's axis and the meter. */
  readonly offAxis_deg: number;
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

const FIRST_POINTS = 16;
const FIRST_SKY_POINTS = 32;
const SKY_KEY = 0x5eed;

/**
 * All sources start with a few samples; then the one that adds most to the error of the sum gets twice as many, until
 * the sum is good enough. Deterministic.
 */
export function directLight(model: LightModel, meter: MeterPoint, options: DirectOptions): DirectLight {
  const { receptor } = options;
  const lamps = model.lamps.map((lamp, i) => newEstimate(lampSampler(model, lamp, meter), i + 1));
  const sky = newEstimate(skySampler(model, model.sky?.illuminance_lx ?? 0, meter), SKY_KEY);
  for (const estimate of lamps) refine(estimate, FIRST_POINTS);
  refine(sky, FIRST_SKY_POINTS);

  const sources = [...lamps, sky];
  const errors = sources.map((source) => error_lx(source, receptor));
  const total = () => sources.reduce((sum, source) => sum + mean_lx(source, receptor), 0);
  const error = () => Math.hypot(...errors);
  while (errorInStops(error(), total()) > options.error_stops) {
    const worst = worstSource(sources, errors, options.maxSamples);
    if (worst < 0) break;
    refine(sources[worst]!, 2 * sources[worst]!.points);
    errors[worst] = error_lx(sources[worst]!, receptor);
  }

  return {
    lamps: model.lamps.map((lamp, i) => ({
      flat_lx: mean_lx(lamps[i]!, 'flat'),
      dome_lx: mean_lx(lamps[i]!, 'dome'),
      error_lx: errors[i]!,
      visible: openShare(lamps[i]!),
      ...aspect(model, lamp, meter),
    })),
    sky: { flat_lx: mean_lx(sky, 'flat'), dome_lx: mean_lx(sky, 'dome'), error_lx: errors.at(-1)! },
    error_lx: error(),
  };
}

/** An error in lux beside a reading in lux, as stops; 0 beside darkness. */
export function errorInStops(error: number, reading: number): number {
  return reading > 0 ? Math.log2(1 + error / reading) : 0;
}

function worstSource(sources: readonly Estimate[], errors: readonly number[], maxSamples: number): number {
  let worst = -1;
  for (const [i, source] of sources.entries()) {
    if (2 * REPLICATES * source.points > maxSamples || errors[i] === 0) continue;
    if (worst < 0 || errors[i]! > errors[worst]!) worst = i;
  }
  return worst;
}

function aspect({ haze }: LightModel, lamp: Lamp, meter: MeterPoint) {
  const toLamp: Vec3 = subtract(lamp.frame.origin_m, meter.position_m);
  const distance_m = length(toLamp);
  return {
    distance_m,
    hazed_m: haze ? hazedLength_m(haze, ...meter.position_m, ...normalize(toLamp), distance_m) : 0,
    incidence_deg: degreesFromRadians(angleBetween(meter.facing, toLamp)),
    offAxis_deg: degreesFromRadians(angleBetween(lamp.frame.a, scale(toLamp, -1))),
  };
}
