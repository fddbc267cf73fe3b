import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { type Aspect, aspectOf } from './aspect.ts';
import { newEstimate } from './estimate.ts';
import { hazeRegionsOf } from './haze-regions.ts';
import { lampSampler } from './lamp-sampler.ts';
import { newRefinement, type Refinement } from './refinement.ts';
import { skySampler } from './sky-sampler.ts';
import type { MeterPoint } from './source-sample.ts';

/** What straight light at one meter can take over from the question before, when nothing that it depends on has changed. */
export interface DirectMemo {
  meter?: MeterPoint | undefined;
  between?: Between | undefined;
  /** In the order of the model's lamps: a lamp's place among them chooses its samples. */
  lamps: KnownLamp[];
  sky?: KnownSky | undefined;
}

interface KnownLamp {
  readonly lamp: Lamp;
  readonly refinement: Refinement;
  readonly aspect: Aspect;
}

interface KnownSky {
  readonly illuminance_lx: number;
  /** Haze between the meter and the sky, which may reach as far as the lamps do. */
  readonly haze: string;
  readonly refinement: Refinement;
}

/** What stands and hangs between a lamp and a meter. */
interface Between {
  readonly geometry: LightModel['geometry'];
  readonly paneDirect: LightModel['paneDirect'];
  readonly haze: string;
}

export function newDirectMemo(): DirectMemo {
  return { lamps: [] };
}

const FIRST_POINTS = 16;
const FIRST_SKY_POINTS = 32;
const SKY_KEY = 0x5eed;

/** Every lamp and the sky as seen from a meter: those of the memo where they are the same still. */
export function sourcesAt(
  model: LightModel,
  meter: MeterPoint,
  memo: DirectMemo,
): { readonly lamps: readonly KnownLamp[]; readonly sky: KnownSky } {
  const between = betweenOf(model);
  if (!memo.meter || !memo.between || !sameMeter(memo.meter, meter) || !sameBetween(memo.between, between)) {
    memo.meter = meter;
    memo.lamps = [];
    memo.sky = undefined;
  }
  memo.between = between;
  memo.lamps = model.lamps.map((lamp, i) => {
    const known = memo.lamps[i];
    return known && sameLight(known.lamp, lamp) ? known : lampSeen(model, lamp, i, meter);
  });
  memo.sky = skyAt(model, meter, memo.sky);
  return { lamps: memo.lamps, sky: memo.sky };
}

function lampSeen(model: LightModel, lamp: Lamp, place: number, meter: MeterPoint): KnownLamp {
  const estimate = newEstimate(lampSampler(model, lamp, meter), place + 1);
  return {
    lamp,
    refinement: newRefinement(estimate, FIRST_POINTS),
    aspect: aspectOf(model, lamp, meter),
  };
}

function skyAt(model: LightModel, meter: MeterPoint, known: KnownSky | undefined): KnownSky {
  const illuminance_lx = model.sky?.illuminance_lx ?? 0;
  const haze = illuminance_lx > 0 ? JSON.stringify(hazeRegionsOf(model)) : '';
  if (known?.illuminance_lx === illuminance_lx && known.haze === haze) return known;
  const estimate = newEstimate(skySampler(model, illuminance_lx, meter), SKY_KEY);
  return { illuminance_lx, haze, refinement: newRefinement(estimate, FIRST_SKY_POINTS) };
}

function betweenOf({ geometry, paneDirect, haze }: LightModel): Between {
  return { geometry, paneDirect, haze: JSON.stringify([haze?.extinction_per_m, haze?.regions]) };
}

function sameMeter(one: MeterPoint, other: MeterPoint): boolean {
  return [0, 1, 2].every(
    (i) => one.position_m[i] === other.position_m[i] && one.facing[i] === other.facing[i],
  );
}

function sameBetween(one: Between, other: Between): boolean {
  return (
    one.geometry === other.geometry &&
    one.haze === other.haze &&
    one.paneDirect.every((direct, i) => direct === other.paneDirect[i])
  );
}

/** Whether two lamps light a meter alike. */
function sameLight(one: Lamp, other: Lamp): boolean {
  return (
    one.frame === other.frame &&
    one.face === other.face &&
    one.distribution === other.distribution &&
    one.gain === other.gain
  );
}
