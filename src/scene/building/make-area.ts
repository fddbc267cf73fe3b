import type { Vec3 } from '../../core/math/vec3.ts';
import { freshId, numberedName, takenIds } from './fresh-names.ts';
import { freeSpot, spotInView } from './in-view.ts';
import type { Made, Surroundings } from './recipe.ts';
import { toCentimetre } from './rounded.ts';

const HALF_SIDE_m = 1.5;
const LEAST_SIDE_m = 0.2;
const HAZE_HEIGHT_m = 4;

/** An area on the ground where nothing may stand: a rectangle between two corners. */
export function makeKeepOut(surroundings: Surroundings, points_m?: readonly Vec3[]): Made {
  const { document } = surroundings;
  const { left, right, far, near } = rectangle(surroundings, points_m);
  const name = numberedName(document, 'Keep-out');
  const id = freshId(takenIds(document), name);
  const area = {
    id,
    name,
    outline_m: [
      [left, far],
      [right, far],
      [right, near],
      [left, near],
    ],
  };
  return {
    commands: [
      {
        do: 'change-section',
        section: 'site',
        patch: { keepOut: [...(document.site?.keepOut ?? []), area] },
      },
    ],
    chosen: [id],
    step: `Add ${name}`,
  };
}

/** A box of haze 4 m high over a rectangle. Haze that hung everywhere hangs in boxes alone from then on. */
export function makeHazeBox(surroundings: Surroundings, points_m?: readonly Vec3[]): Made {
  const { document } = surroundings;
  const { left, right, far, near } = rectangle(surroundings, points_m);
  const regions = document.haze?.regions ?? [];
  const region = {
    name: `Haze ${regions.length + 1}`,
    position_m: [
      toCentimetre((left + right) / 2),
      toCentimetre(spotInView(surroundings)[1] + HAZE_HEIGHT_m / 2),
      toCentimetre((far + near) / 2),
    ],
    size_m: [toCentimetre(right - left), HAZE_HEIGHT_m, toCentimetre(near - far)],
  };
  const visibility = document.haze ? {} : { visibility_m: THICK_m };
  return {
    commands: [
      { do: 'change-section', section: 'haze', patch: { ...visibility, regions: [...regions, region] } },
    ],
    chosen: ['haze'],
    step: 'Add a box of haze',
  };
}

const THICK_m = 300;

function rectangle(surroundings: Surroundings, points_m: readonly Vec3[] | undefined) {
  const [a, b] = points_m ?? square(surroundings);
  const ordered = (p: number, q: number): [number, number] => {
    const [low, high] = [Math.min(p, q), Math.max(p, q)].map(toCentimetre) as [number, number];
    return [low, Math.max(high, toCentimetre(low + LEAST_SIDE_m))];
  };
  const [left, right] = ordered(a![0], b![0]);
  const [far, near] = ordered(a![2], b![2]);
  return { left, right, far, near };
}

function square(surroundings: Surroundings): [Vec3, Vec3] {
  const [x, y, z] = freeSpot(surroundings, HALF_SIDE_m);
  return [
    [x - HALF_SIDE_m, y, z - HALF_SIDE_m],
    [x + HALF_SIDE_m, y, z + HALF_SIDE_m],
  ];
}
