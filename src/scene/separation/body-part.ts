import { figureParts } from '../../core/geometry/figure.ts';
import { worldPoint } from '../../core/geometry/placement.ts';
import { distance, type Vec3 } from '../../core/math/vec3.ts';
import { figureSpec } from '../compile/figure-shapes.ts';
import type { Figure } from '../schema/figure.ts';

/** How near to where the arm begins an edge is the shoulder's, as part of stature. */
const SHOULDER_REACH = 0.065;

const SPOKEN: Readonly<Record<string, string>> = {
  torso: 'torso',
  'torso, left': 'left side',
  'torso, right': 'right side',
  pelvis: 'hips',
};

/**
 * What a place on a figure is called: head, neck, left shoulder, left upper arm … Left and right are the figure's own.
 * `part` counts the figure's shapes in their order.
 */
export function bodyPartNames(figure: Figure): (part: number, point_m: Vec3) => string {
  const spec = figureSpec(figure);
  const parts = figureParts(spec);
  const shoulders = parts.flatMap(({ name, shape }) =>
    name.endsWith('upper arm') && shape.kind === 'capsule'
      ? [
          {
            name: `${name.split(' ')[0]} shoulder`,
            at_m: worldPoint(shape.placement, [0, -shape.halfLength_m, 0]),
          },
        ]
      : [],
  );
  return (part, point_m) => {
    const name = parts[part]!.name;
    if (parts[part]!.role === 'upper') {
      const near = shoulders.find(({ at_m }) => distance(at_m, point_m) < SHOULDER_REACH * spec.height_m);
      if (near) return near.name;
    }
    return SPOKEN[name] ?? name;
  };
}
