import type { ThinLens } from '../../core/camera/thin-lens.ts';
import { nearestHit } from '../../core/geometry/ray-query.ts';
import { newHit } from '../../core/geometry/ray-shape.ts';
import type { Lamp as LampModel, LightModel } from '../../core/light-model/light-model.ts';
import { add, scale, type Vec3 } from '../../core/math/vec3.ts';
import { facePoints } from '../../core/mirror/face-points.ts';
import type { Lamp } from '../schema/lamp.ts';
import { type Sighting, sighting } from './sighting.ts';

/** Whether the camera sees a lamp's head and what carries it. */
export interface LampInShot {
  readonly id: string;
  readonly name: string;
  /**
   * A lamp without a stand is taken for one that belongs to the set, such as a lantern: that it is seen is noted and is no
   * fault.
   */
  readonly practical: boolean;
  /** The emitting face; the model knows no housing. */
  readonly head: Sighting;
  /** Its column from the ground to the head and the circle of its feet; null for a practical. */
  readonly stand: Sighting | null;
}

/** Points of a column lie this far apart, and feet this high over the ground. */
const COLUMN_STEP_m = 0.05;
const MOST_COLUMN_POINTS = 400;
const FOOT_HEIGHT_m = 0.03;
const FOOT_POINTS = 24;
const DEFAULT_FOOT_RADIUS_m = 0.5;
const DEEPEST_m = 1e4;

export function lampInShot(lens: ThinLens, model: LightModel, lamp: Lamp, light: LampModel): LampInShot {
  return {
    id: lamp.id,
    name: lamp.name ?? lamp.id,
    practical: lamp.stand === undefined,
    head: sighting(lens, model, headPoints(light)),
    stand: lamp.stand
      ? sighting(
          lens,
          model,
          standPoints(model, lamp.position_m, lamp.stand.footRadius_m ?? DEFAULT_FOOT_RADIUS_m),
        )
      : null,
  };
}

function headPoints({ face, frame }: LampModel): Vec3[] {
  const { even, rim } = facePoints(face);
  return [...even, ...rim].map(({ r_m, t_m }) =>
    add(frame.origin_m, add(scale(frame.r, r_m), scale(frame.t, t_m))),
  );
}

const hit = newHit();

/** Height of what is under a point; 0 (or the point itself where it is lower) where nothing is. */
function groundUnder_m({ geometry }: LightModel, [x, y, z]: Vec3): number {
  if (nearestHit(geometry, x, y, z, 0, -1, 0, 1e-6, DEEPEST_m, hit)) return y - hit.t;
  return Math.min(0, y);
}

function standPoints(model: LightModel, head_m: Vec3, footRadius_m: number): Vec3[] {
  const [x, top, z] = head_m;
  const ground = groundUnder_m(model, head_m);
  const steps = Math.min(MOST_COLUMN_POINTS, Math.max(1, Math.ceil((top - ground) / COLUMN_STEP_m)));
  const column = Array.from(
    { length: steps },
    (_, i): Vec3 => [x, ground + ((i + 0.5) / steps) * (top - ground), z],
  );
  const feet = Array.from({ length: FOOT_POINTS }, (_, i): Vec3 => {
    const angle = (2 * Math.PI * i) / FOOT_POINTS;
    return [x + footRadius_m * Math.cos(angle), ground + FOOT_HEIGHT_m, z + footRadius_m * Math.sin(angle)];
  });
  return [...column, ...feet];
}
