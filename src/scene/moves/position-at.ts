import { add, distance, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import type { Path } from '../schema/path.ts';

/** Where a move begins and ends. */
export function timesOf(path: Path): { readonly from_s: number; readonly to_s: number } {
  return { from_s: path.points[0]!.t_s, to_s: path.points.at(-1)!.t_s };
}

/** Where the mover is: straight and even between the points, at the ends before and after the move. */
export function positionAt_m(path: Path, t_s: number): Vec3 {
  const { leg, share } = placeOnPath(path, t_s);
  const [from, to] = [path.points[leg]!.position_m, path.points[leg + 1]!.position_m];
  if (share === 1) return to;
  return add(from, scale(subtract(to, from), share));
}

/** How far the mover has gone by then, along the move as a tape would be laid: metres from its first point. */
export function gone_m(path: Path, t_s: number): number {
  const { leg, share } = placeOnPath(path, t_s);
  let gone = 0;
  for (let i = 0; i < leg; i++) gone += legLength_m(path, i);
  return gone + share * legLength_m(path, leg);
}

function legLength_m(path: Path, leg: number): number {
  return distance(path.points[leg]!.position_m, path.points[leg + 1]!.position_m);
}

function placeOnPath({ points }: Path, t_s: number): { readonly leg: number; readonly share: number } {
  const last = points.length - 2;
  const next = points.findIndex((point) => point.t_s > t_s);
  if (next < 0) return { leg: last, share: 1 };
  const leg = Math.max(0, next - 1);
  const [from, to] = [points[leg]!.t_s, points[leg + 1]!.t_s];
  return { leg, share: Math.max(0, (t_s - from) / (to - from)) };
}
