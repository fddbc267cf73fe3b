import { type ThinLens, thinLens } from '../../../../src/core/camera/thin-lens.ts';
import { buildGeometry } from '../../../../src/core/geometry/geometry.ts';
import type { Part } from '../../../../src/core/geometry/shape.ts';
import type { Lamp, LightModel } from '../../../../src/core/light-model/light-model.ts';
import { add, normalize, scale, type Vec3 } from '../../../../src/core/math/vec3.ts';
import { type ModelOptions, modelOf } from '../../../support/light-models.ts';

/** A clear coat of n = 1.5, as smooth as the model knows it, over black. */
export const GLOSS = { roughness: 0, coatIor: 1.5 } as const;

/** One model's surfaces with other things in it: making a surface ready takes milliseconds. */
export function sceneMaker(options: Pick<ModelOptions, 'surfaces' | 'panes'> = { surfaces: [GLOSS] }) {
  const base = modelOf(options);
  return (parts: readonly Part[], lamps: readonly Lamp[]): LightModel => ({
    ...base,
    parts,
    geometry: buildGeometry(parts),
    lamps,
    // Black bases: what lamps do to them is nothing.
    lampOnSurface_RGB: new Float64Array(3 * lamps.length * base.surfaces.length),
  });
}

/** A camera of 53° across and up. */
export function cameraAt(position_m: Vec3, look_m: Vec3, halfWidth = 0.5): ThinLens {
  const lens = thinLens({
    position_m,
    look_m,
    roll_deg: 0,
    sensor_mm: [36, 36],
    aspect: 1,
    focal_mm: 36,
    fNumber: 4,
    focus_m: null,
  });
  return { ...lens, halfWidth, halfHeight: halfWidth };
}

/** A point in a cube of so many metres about the origin. */
export function somewhere(random: () => number, half_m: number): Vec3 {
  return [(2 * random() - 1) * half_m, (2 * random() - 1) * half_m, (2 * random() - 1) * half_m];
}

/** Rodrigues' turn of a vector about a unit axis. */
export function turned(v: Vec3, axis: Vec3, angle: number): Vec3 {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const along = v[0] * axis[0] + v[1] * axis[1] + v[2] * axis[2];
  const [ax, ay, az] = axis;
  const side: Vec3 = [ay * v[2] - az * v[1], az * v[0] - ax * v[2], ax * v[1] - ay * v[0]];
  return add(add(scale(v, c), scale(side, s)), scale(axis, along * (1 - c)));
}

export function direction(random: () => number): Vec3 {
  return normalize(somewhere(random, 1));
}
