import { vehicleProblems } from '../../core/geometry/vehicle-openings.ts';
import { vehicleSpec } from '../compile/solid-shapes.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type Problem, problemAt, valueAt } from './problem.ts';

/** Every opening of a vehicle is checked against every other. */
const MAX_OPENINGS = 2000;

/** Shapes whose figures are valid one by one but cannot be built together: openings that do not fit their wall. */
export function shapeProblems(document: SceneDocument): Problem[] {
  return (document.solids ?? []).flatMap((solid, index): Problem[] => {
    switch (solid.shape) {
      case 'vehicle': {
        const runs = [...(solid.windows ?? []), ...(solid.doors ?? [])];
        const openings = runs.reduce((sum, run) => sum + run.count, 0);
        if (openings > MAX_OPENINGS) {
          const found = `${openings} windows and doors`;
          return [problemAt(document, ['solids', index], { found, expected: `at most ${MAX_OPENINGS}` })];
        }
        return vehicleProblems(vehicleSpec(solid)).map(({ where, message }) => {
          const at = ['solids', index, ...steps(where)];
          return problemAt(document, at, wording(message, valueAt(document, at)));
        });
      }
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

/** `is 1: must be above the sill.` → found 1, expected above the sill. Other faults are told as they are. */
function wording(message: string, value: unknown): { found: string; expected: string } {
  const [, is, mustBe] = /^is (.*?): must be (.*)\.$/.exec(message) ?? [];
  if (is !== undefined && mustBe !== undefined)
    return { found: value === undefined ? `${is} (as none is given)` : is, expected: mustBe };
  const found = typeof value === 'number' ? String(value) : 'openings that do not fit';
  return { found, expected: `room for all (this ${message.replace(/\.$/, '')})` };
}

/** `windows[1].head_m` → its steps. */
function steps(where: string): (string | number)[] {
  return [...where.matchAll(/[^.[\]]+/g)].map(([step]) => (/^\d+$/.test(step) ? Number(step) : step));
}
