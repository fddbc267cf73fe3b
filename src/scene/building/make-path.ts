import { add, distance, scale, type Vec3 } from '../../core/math/vec3.ts';
import { type Path, WALKER } from '../schema/path.ts';
import { levelToward } from './directions.ts';
import { freshId, freshName, takenIds } from './fresh-names.ts';
import { acrossView, spotInView } from './in-view.ts';
import { onGround } from './make-figure.ts';
import type { Made, Surroundings } from './recipe.ts';
import { pointToCentimetre } from './rounded.ts';
import { findThing } from './things.ts';

/** An easy walk: common practice, no source. Cameras and lamps are tracked slower. */
const WALK_m_s = 1.4;
const TRACK_m_s = 0.5;
const HALF_CROSSING_m = 4;
const TRACK_m = 2;

/**
 * A move of the figure, lamp or camera that was chosen last, else of a passer-by; along the two points, or as that thing
 * usually goes.
 */
export function makePath(surroundings: Surroundings, points_m?: readonly Vec3[]): Made {
  const { document } = surroundings;
  const mover = moverOf(surroundings);
  const [from_m, to_m] = (points_m ? onLevel(surroundings, points_m) : usualWay(surroundings)).map(
    pointToCentimetre,
  ) as [[number, number, number], [number, number, number]];
  const speed_m_s = mover === undefined || mover.list === 'figures' ? WALK_m_s : TRACK_m_s;
  const name = freshName(document, mover ? `${mover.name} moves` : 'Passer-by');
  const path: Path = {
    id: freshId(takenIds(document), name),
    name,
    of: mover?.id ?? WALKER,
    points: [
      { t_s: 0, position_m: from_m },
      { t_s: Number(Math.max(0.5, distance(from_m, to_m) / speed_m_s).toFixed(1)), position_m: to_m },
    ],
  };
  return { commands: [{ do: 'add', to: 'paths', thing: path }], chosen: [path.id], step: `Add ${name}` };
}

const MOVERS = ['figures', 'lamps', 'cameras'];

function moverOf({ document, chosen }: Surroundings) {
  const thing = chosen.length > 0 ? findThing(document, chosen.at(-1)!) : undefined;
  return thing && MOVERS.includes(thing.list) ? thing : undefined;
}

/** People keep to the ground, lamps and cameras to their height. */
function onLevel(surroundings: Surroundings, points_m: readonly Vec3[]): Vec3[] {
  const mover = moverOf(surroundings);
  if (!mover || mover.list === 'figures') return points_m.map((point) => onGround(surroundings, point));
  return points_m.map(([x, , z]) => [x, mover.position_m![1], z]);
}

function usualWay(surroundings: Surroundings): [Vec3, Vec3] {
  const mover = moverOf(surroundings);
  const across = scale(acrossView(surroundings), HALF_CROSSING_m);
  if (!mover) {
    const spot = spotInView(surroundings);
    return [onGround(surroundings, add(spot, across)), onGround(surroundings, add(spot, scale(across, -1)))];
  }
  const place = mover.position_m!;
  if (mover.list === 'figures') return [add(place, across), place];
  const camera = surroundings.document.cameras?.find(({ id }) => id === mover.id);
  const lamp = surroundings.document.lamps?.find(({ id }) => id === mover.id);
  return [place, add(place, scale(levelToward(place, camera?.look_m ?? lamp!.aim_m), TRACK_m))];
}
