import { add, subtract, type Vec3 } from '../../../core/math/vec3.ts';
import type { Command } from '../../../scene/commands/command.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { changeThings } from './change-things.ts';
import { planThings } from './plan-things.ts';

/**
 * Commands that put things at places, by id. Aims and looks stay on what they are aimed at. Paths go along with their first
 * point, keep-out areas with their middle, on the ground. A tenth of a millimetre is as fine as places are kept.
 */
export function placeThings(
  document: SceneDocument,
  places_m: ReadonlyMap<string, Vec3>,
): readonly Command[] {
  const things = planThings(document).filter(({ id }) => places_m.has(id));
  const moves = new Map(things.map(({ id, position_m }) => [id, subtract(places_m.get(id)!, position_m)]));
  const moved = (id: string, point_m: Vec3) => kept(add(point_m, moves.get(id)!));
  const place = ({ id, position_m }: { id: string; position_m: Vec3 }) => ({
    position_m: moved(id, position_m),
  });
  return changeThings(document, new Set(moves.keys()), {
    lamps: place,
    marks: place,
    figures: place,
    cameras: place,
    solids: place,
    paths: ({ id, points }) => ({
      points: points.map(({ t_s, position_m }) => ({ t_s, position_m: moved(id, position_m) })),
    }),
    keepOut: ({ id, outline_m }) => ({
      outline_m: outline_m.map(([x, z]): [number, number] => {
        const [toX, , toZ] = moved(id, [x, 0, z]);
        return [toX, toZ];
      }),
    }),
    haze: ({ position_m }, id) => ({ position_m: moved(id, position_m) }),
  });
}

const PER_METRE = 10_000;

export function kept([x, y, z]: Vec3): [number, number, number] {
  const rounded = (length_m: number) => Math.round(length_m * PER_METRE) / PER_METRE + 0;
  return [rounded(x), rounded(y), rounded(z)];
}
