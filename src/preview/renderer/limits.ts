import type { LightModel } from '../../core/light-model/light-model.ts';

/** Separate stretches of haze that a ray keeps count of: MAX_STRETCHES of shaders/haze-region.ts. */
const MOST_STRETCHES = 8;
/** Farther from the origin than this, single precision places surfaces no better than a millimetre or two. */
const FAR_m = 5000;

/**
 * What of a scene the graphics card's frame leaves out or does less well than the core's, in sentences for the person at the
 * screen; none where there is nothing to say.
 */
export function rendererLimits({ geometry, haze, lamps }: LightModel): string[] {
  const limits: string[] = [];
  const boxes = haze?.regions?.length ?? 0;
  if (boxes > MOST_STRETCHES)
    limits.push(
      `Haze fills ${boxes} boxes; a ray that crosses more than ${MOST_STRETCHES} separate ones misses the haze of the rest.`,
    );
  const reach_m = Math.max(
    0,
    ...lamps.flatMap(({ frame }) => frame.origin_m.map(Math.abs)),
    geometry.bounds.reduce((most, x) => Math.max(most, Math.abs(x)), 0),
  );
  if (reach_m > FAR_m)
    limits.push(
      `The scene reaches ${Math.round(reach_m)} m from its origin; so far out this frame places surfaces to millimetres only, so that shadows close to what throws them may be ragged.`,
    );
  return limits;
}
