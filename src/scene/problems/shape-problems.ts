import { vehicleProblems } from '../../core/geometry/vehicle-openings.ts';
import { vehicleSpec } from '../compile/solid-shapes.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type Problem, problemAt } from './problem.ts';

/** Shapes whose figures are valid one by one but cannot be built together: openings that do not fit their wall. */
export function shapeProblems(document: SceneDocument): Problem[] {
  return (document.solids ?? []).flatMap((solid, index): Problem[] => {
    switch (solid.shape) {
      case 'vehicle':
        return vehicleProblems(vehicleSpec(solid)).map(({ where, message }) =>
          problemAt(document, ['solids', index, ...steps(where)], {
            found: message,
            expected: 'openings that fit the wall and each other',
          }),
        );
      case 'panel':
        return (solid.openings ?? []).flatMap((opening, i) => {
          const fits =
            opening.left_m + opening.width_m <= solid.size_m[0] + 1e-9 &&
            opening.bottom_m + opening.height_m <= solid.size_m[1] + 1e-9;
          if (fits) return [];
          return problemAt(document, ['solids', index, 'openings', i], {
            found: `an opening that reaches past the panel of ${solid.size_m.join(' × ')} m`,
            expected: 'one that lies within it, measured from its lower left corner',
          });
        });
      case 'capsule':
        if (solid.length_m >= 2 * solid.radius_m) return [];
        return [
          problemAt(document, ['solids', index, 'length_m'], {
            found: `${solid.length_m}`,
            expected: `at least twice the radius, ${2 * solid.radius_m} (the length is over all)`,
          }),
        ];
      default:
        return [];
    }
  });
}

/** `windows[1].head_m` → its steps. */
function steps(where: string): (string | number)[] {
  return [...where.matchAll(/[^.[\]]+/g)].map(([step]) => (/^\d+$/.test(step) ? Number(step) : step));
}
