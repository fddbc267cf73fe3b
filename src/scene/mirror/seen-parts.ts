import { aimThrough, newCameraRay, type ThinLens } from '../../core/camera/thin-lens.ts';
import { nearestHit } from '../../core/geometry/ray-query.ts';
import { newHit } from '../../core/geometry/ray-shape.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';

/** Rays across the frame; what is narrower everywhere than a pixel of so small a picture is not looked for. */
const ACROSS = 160;
/** Panes that a ray looks through. */
const MOST_PANES = 8;
const OFF_m = 1e-6;

const ray = newCameraRay();
const hit = newHit();

/**
 * The same scene in which only some parts can mirror, for asking again and again about these. Light and shadow are as
 * before.
 */
export function mirroringOnly(model: LightModel, keeps: (part: number) => boolean): LightModel {
  return {
    ...model,
    // A part that is not of a material mirrors nothing.
    parts: model.parts.map((part, i) => (keeps(i) ? part : { ...part, substance: NOTHING })),
  };
}

const NOTHING = { kind: 'pane', index: -1 } as const;

/** The parts that a camera sees anything of, through panes too. */
export function seenParts({ geometry }: LightModel, lens: ThinLens): ReadonlySet<number> {
  const seen = new Set<number>();
  const down = Math.max(1, Math.round((ACROSS * lens.halfHeight) / lens.halfWidth));
  for (let row = 0; row < down; row++)
    for (let column = 0; column < ACROSS; column++) {
      aimThrough(lens, (column + 0.5) / ACROSS, (row + 0.5) / down, 0, 0, ray);
      let from = 0;
      for (let panes = 0; panes < MOST_PANES; panes++) {
        if (!nearestHit(geometry, ray.ox, ray.oy, ray.oz, ray.dx, ray.dy, ray.dz, from, Infinity, hit)) break;
        if (geometry.panes[hit.shape]! < 0) {
          seen.add(hit.shape);
          break;
        }
        from = hit.t + OFF_m;
      }
    }
  return seen;
}
