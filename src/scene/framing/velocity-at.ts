import { distance, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { positionAt_m, timesOf } from '../moves/position-at.ts';
import type { Path } from '../schema/path.ts';

const SPAN_s = 1e-3;

/** Metres a second along a path; at a corner the mean of what comes before and after, none before and after the move. */
export function velocityAt_m_per_s(path: Path, t_s: number): Vec3 {
  const { from_s, to_s } = timesOf(path);
  const [before, after] = [Math.max(from_s, t_s - SPAN_s), Math.min(to_s, t_s + SPAN_s)];
  if (!(after > before)) return [0, 0, 0];
  return scale(subtract(positionAt_m(path, after), positionAt_m(path, before)), 1 / (after - before));
}

/** The fastest of a path's legs. */
export function topSpeed_m_per_s({ points }: Path): number {
  const legs = points.slice(1).map((to, i) => ({ from: points[i]!, to }));
  return Math.max(
    ...legs.map(({ from, to }) => distance(from.position_m, to.position_m) / (to.t_s - from.t_s)),
  );
}
