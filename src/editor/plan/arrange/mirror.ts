import type { Vec3 } from '../../../core/math/vec3.ts';
import type { Command } from '../../../scene/commands/command.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { Solid, VehicleSolid } from '../../../scene/schema/solid.ts';
import { boundsOf } from '../drawing/viewport.ts';
import { changeThings } from './change-things.ts';
import { kept } from './place-things.ts';
import type { PlanThing } from './plan-things.ts';

/** Which coordinate changes sides: x for left and right on plan, z for near and far. */
export type MirrorAxis = 'x' | 'z';

/**
 * Commands that mirror things about the upright plane through the middle of them all, each with where it looks or is aimed.
 * A mesh keeps its own sense: it is only put and turned as its mirror image would be.
 */
export function mirrorThings(
  document: SceneDocument,
  things: readonly PlanThing[],
  axis: MirrorAxis,
): readonly Command[] {
  const bounds = boundsOf(things.map(({ position_m: [x, , z] }) => [x, z] as const));
  if (!bounds) return [];
  const at = axis === 'x' ? 0 : 1;
  const sum_m = bounds.low_m[at] + bounds.high_m[at];
  const point = ([x, y, z]: Vec3) => kept(axis === 'x' ? [sum_m - x, y, z] : [x, y, sum_m - z]);
  const heading = (heading_deg: number) => turned(axis === 'x' ? -heading_deg : 180 - heading_deg);
  const roll = (roll_deg: number | undefined) => (roll_deg === undefined ? {} : { roll_deg: -roll_deg + 0 });

  return changeThings(document, new Set(things.map(({ id }) => id)), {
    lamps: ({ position_m, aim_m, roll_deg }) => ({
      position_m: point(position_m),
      aim_m: point(aim_m),
      ...roll(roll_deg),
    }),
    cameras: ({ position_m, look_m, roll_deg }) => ({
      position_m: point(position_m),
      look_m: point(look_m),
      ...roll(roll_deg),
    }),
    marks: ({ position_m, facing }) => ({
      position_m: point(position_m),
      ...(typeof facing === 'object' ? { facing: direction(facing, axis) } : {}),
    }),
    figures: ({ position_m, heading_deg = 0 }) => ({
      position_m: point(position_m),
      heading_deg: heading(heading_deg),
    }),
    solids: (solid) => ({ position_m: point(solid.position_m), ...mirroredShape(solid, axis) }),
    paths: ({ points }) => ({
      points: points.map(({ t_s, position_m }) => ({ t_s, position_m: point(position_m) })),
    }),
    keepOut: ({ outline_m }) => ({
      outline_m: outline_m.map(([x, z]): [number, number] => {
        const [toX, , toZ] = point([x, 0, z]);
        return [toX, toZ];
      }),
    }),
    haze: ({ position_m, rotation_deg }) => ({
      position_m: point(position_m),
      ...(rotation_deg ? { rotation_deg: mirroredAcross(rotation_deg, axis) } : {}),
    }),
  });
}

function direction([x, y, z]: Vec3, axis: MirrorAxis): [number, number, number] {
  return axis === 'x' ? [-x + 0, y, z] : [x, y, -z + 0];
}

function mirroredShape(solid: Solid, axis: MirrorAxis): object {
  const rotation_deg = solid.rotation_deg ?? [0, 0, 0];
  if (solid.shape === 'vehicle')
    return { rotation_deg: mirroredLengthways(rotation_deg, axis), ...otherSides(solid) };
  const openings =
    solid.shape === 'panel' && solid.openings
      ? {
          openings: solid.openings.map((opening) => ({
            ...opening,
            left_m: millimetres(solid.size_m[0] - opening.left_m - opening.width_m),
          })),
        }
      : {};
  const unturned = axis === 'x' && rotation_deg.every((angle) => angle === 0);
  return { ...(unturned ? {} : { rotation_deg: mirroredAcross(rotation_deg, axis) }), ...openings };
}

/**
 * The rotation R' with M R = R' L, where M mirrors the world in x or z and L the thing in its own x: M R_y(θ) R_x(α) R_z(β) M is
 * R_y(−θ) R_x(α) R_z(−β) for x and R_y(−θ) R_x(−α) R_z(β) for z; where M is not L, half a turn about y makes up for it.
 */
function mirroredAcross([tilt, heading, bank]: Vec3, axis: MirrorAxis): [number, number, number] {
  return [turned(tilt), turned(axis === 'x' ? -heading : 180 - heading), turned(-bank)];
}

/** The same where L mirrors the thing in its own z: a vehicle keeps its front and changes its right and left sides. */
function mirroredLengthways([tilt, heading, bank]: Vec3, axis: MirrorAxis): [number, number, number] {
  return [turned(-tilt), turned(axis === 'x' ? 180 - heading : -heading), turned(bank)];
}

const OTHER_SIDE = { right: 'left', left: 'right', front: 'front', back: 'back' } as const;

/** Runs in the end walls count from the right side, and so from the other end now. */
function otherSides({ size_m, windows, doors }: VehicleSolid): object {
  const width_m = size_m[2];
  const run = <
    R extends NonNullable<VehicleSolid['doors']>[number] | NonNullable<VehicleSolid['windows']>[number],
  >(
    given: R,
  ): R => {
    const { side, count, first_m, pitch_m, width_m: each_m } = given;
    const long_m = (count - 1) * (pitch_m ?? each_m) + each_m;
    const ends = side === 'front' || side === 'back';
    return {
      ...given,
      side: OTHER_SIDE[side],
      first_m: ends ? millimetres(width_m - first_m - long_m) : first_m,
    };
  };
  return {
    ...(windows ? { windows: windows.map(run) } : {}),
    ...(doors ? { doors: doors.map(run) } : {}),
  };
}

function millimetres(length_m: number): number {
  return Math.round(length_m * 1000) / 1000 + 0;
}

/** Within half a turn each way, to a thousandth of a degree. */
export function turned(angle_deg: number): number {
  const within = ((((angle_deg + 180) % 360) + 360) % 360) - 180;
  const rounded = Math.round(within * 1000) / 1000 + 0;
  return rounded === -180 ? 180 : rounded;
}
