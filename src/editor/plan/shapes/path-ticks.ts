import type { Vec3 } from '../../../core/math/vec3.ts';
import { gone_m, positionAt_m, timesOf } from '../../../scene/moves/position-at.ts';
import type { Path } from '../../../scene/schema/path.ts';

export interface PathTick {
  readonly t_s: number;
  readonly position_m: Vec3;
}

const EVERY_s = [0.1, 0.2, 0.5, 1, 2, 5, 10, 30, 60, 300, 600, 3600, 14_400, 86_400] as const;

/**
 * Where the mover is at even times, as often as they come `apart_m` from each other on the way, and at its beginning and end.
 */
export function pathTicks(path: Path, apart_m: number): readonly PathTick[] {
  const { from_s, to_s } = timesOf(path);
  const length_m = gone_m(path, to_s);
  const most = Math.max(1, Math.floor(length_m / apart_m));
  const every_s = EVERY_s.find((step_s) => (to_s - from_s) / step_s <= most) ?? EVERY_s.at(-1)!;
  const times = [from_s];
  const first = Math.floor(from_s / every_s) + 1;
  // An even time just before the end would lie on it.
  for (let i = first; i * every_s < to_s - every_s / 2; i++) times.push(i * every_s);
  times.push(to_s);
  return times.map((t_s) => ({ t_s, position_m: positionAt_m(path, t_s) }));
}
