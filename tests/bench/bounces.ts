import { placementFrom } from '../../src/core/geometry/placement.ts';
import type { Part } from '../../src/core/geometry/shape.ts';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { errorInStops } from '../../src/core/transport/direct.ts';
import {
  BATCHES,
  indirectError_lx,
  indirectMean,
  newIndirect,
  refineIndirect,
} from '../../src/core/transport/indirect.ts';
import { BOUNCE, lampBin, luminance } from '../../src/core/transport/light-bins.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque } from '../support/light-models.ts';
import { ms, type Row, timed } from './report.ts';

/**
 * What bounces cost: a closed room whose walls all have one reflectance, which sets how often light goes round in it.
 * No path has a limit on its bounces; roulette ends it, so its length is counted.
 */
export function benchBounces(): Row[] {
  return [0.2, 0.5, 0.8, 0.95].map((reflectance) => {
    const tracer = newTracer(room(reflectance));
    const traced = () => {
      const indirect = newIndirect(tracer, METER, 1);
      refineIndirect(indirect, PATHS);
      return indirect;
    };
    const indirect = traced();
    const bounced_lx = luminance(...indirectMean(indirect, 'flat', lampBin(0, BOUNCE)));
    const { median_ms } = timed(5, traced);
    return {
      'walls reflect': reflectance.toFixed(2),
      'bounces a path': bouncesPerPath(reflectance).toFixed(1),
      bounced: `${bounced_lx.toFixed(1)} lx`,
      [`${BATCHES * PATHS} paths`]: ms(median_ms),
      'a path': `${((1000 * median_ms) / (BATCHES * PATHS)).toFixed(1)} µs`,
      error: `±${errorInStops(indirectError_lx(indirect, 'flat'), bounced_lx).toFixed(3)} stop`,
    };
  });
}

/** In each of the batches. */
const PATHS = 1024;
const SIZE_m: Vec3 = [6, 3, 8];
const METER = { position_m: [1.5, -0.5, 2], facing: [0, 1, 0] } as const;

function room(reflectance: number): LightModel {
  return modelOf({
    lamps: [lampAt([-1, 1, -1.5], [0, 0, 0], isotropic(500))],
    parts: walls(),
    surfaces: [{ reflectance: [reflectance, reflectance, reflectance] }],
  });
}

function walls(): Part[] {
  const [w, h, d] = SIZE_m;
  const wall = (at: Vec3, turn: Vec3, width_m: number, height_m: number) =>
    opaque({
      kind: 'panel',
      placement: placementFrom(at, turn),
      halfSize_m: [width_m / 2, height_m / 2],
      openings: [],
    });
  return [-1, 1].flatMap((side) => [
    wall([0, 0, (side * d) / 2], [0, 0, 0], w, h),
    wall([(side * w) / 2, 0, 0], [0, 90, 0], d, h),
    wall([0, (side * h) / 2, 0], [90, 0, 0], w, d),
  ]);
}

/** Every bounce looks up what its wall is made of, once. */
function bouncesPerPath(reflectance: number): number {
  const model = room(reflectance);
  let bounces = 0;
  const counted = new Proxy(model.geometry.materials, {
    get(materials, key) {
      if (typeof key === 'string' && /^\d+$/.test(key)) bounces++;
      return Reflect.get(materials, key, materials);
    },
  });
  const tracer = newTracer({ ...model, geometry: { ...model.geometry, materials: counted } });
  bounces = 0;
  refineIndirect(newIndirect(tracer, METER, 1), PATHS);
  return bounces / (BATCHES * PATHS);
}
