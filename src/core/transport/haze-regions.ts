import { WORLD } from '../geometry/placement.ts';
import { type HazeRegion, hazeAlong, newHazeStretches } from '../haze/haze-region.ts';
import type { LightModel } from '../light-model/light-model.ts';

/**
 * Haze that is everywhere fills all that is in the scene and at least so much round it, to whole steps, so that it stays the
 * same while a lamp is moved about; the sky is beyond.
 */
const HAZE_MARGIN_m = 20;
const HAZE_STEP_m = 10;
/** Farther than any scene reaches: coordinates are within 10 km. */
const HORIZON_m = 1e5;

const known = new WeakMap<LightModel, readonly HazeRegion[]>();
const stretches = newHazeStretches();

/** Where haze scatters: its regions or, where it is everywhere, one round the scene; none without haze. */
export function hazeRegionsOf(model: LightModel): readonly HazeRegion[] {
  if (!model.haze) return [];
  const found = known.get(model) ?? model.haze.regions ?? [aroundEverything(model)];
  known.set(model, found);
  return found;
}

/**
 * What haze lets through of the sky, straight along a unit direction: e^(−σ_t·d). What it takes off, but for the share that it
 * swallows, it scatters, and paths find that again wherever they are scattered toward the sky; were it not taken off here, it
 * would count twice.
 */
export function skyThroughHaze(
  model: LightModel,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  if (!model.haze) return 1;
  hazeAlong(hazeRegionsOf(model), ox, oy, oz, dx, dy, dz, HORIZON_m, stretches);
  return Math.exp(-model.haze.extinction_per_m * stretches.length_m);
}

function aroundEverything(model: LightModel): HazeRegion {
  const low = [0, 0, 0];
  const high = [0, 0, 0];
  const take = (x: number, axis: number) => {
    low[axis] = Math.min(low[axis]!, HAZE_STEP_m * Math.floor((x - HAZE_MARGIN_m) / HAZE_STEP_m));
    high[axis] = Math.max(high[axis]!, HAZE_STEP_m * Math.ceil((x + HAZE_MARGIN_m) / HAZE_STEP_m));
  };
  for (const lamp of model.lamps) for (let axis = 0; axis < 3; axis++) take(lamp.frame.origin_m[axis]!, axis);
  const { bounds } = model.geometry;
  for (let i = 0; i < bounds.length; i++) take(bounds[i]!, i % 3);
  const middle = (axis: number) => (low[axis]! + high[axis]!) / 2;
  const half = (axis: number) => (high[axis]! - low[axis]!) / 2;
  return {
    placement: { ...WORLD, origin_m: [middle(0), middle(1), middle(2)] },
    halfSize_m: [half(0), half(1), half(2)],
  };
}
