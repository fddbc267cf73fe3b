import type { Crossings, Ray } from './ray.ts';

/**
 * The line is sheared onto one axis and the triangle judged in the plane across it by the signs of its three edge
 * functions (S. Woop, C. Benthin, I. Wald, Watertight ray/triangle intersection, JCGT 2:1, 2013). Two triangles that
 * share an edge compute its function from the same vertices, so they get the same number with opposite signs: no line
 * slips between them, and one through the edge itself meets both.
 *
 * Seen edge-on, a triangle has edge functions of nothing but rounding, which may agree in sign by chance: it then has
 * no area to be met.
 */
const ROUNDING = 2 ** -50;

export function triangleCrossings(records: Float64Array, at: number, ray: Ray, found: Crossings): boolean {
  const { line, main, across, up, shearAcross, shearUp } = ray;
  const om = line[main]!;
  const oa = line[across]!;
  const ou = line[up]!;
  const am = records[at + main]! - om;
  const bm = records[at + 3 + main]! - om;
  const cm = records[at + 6 + main]! - om;
  const ax = records[at + across]! - oa - shearAcross * am;
  const ay = records[at + up]! - ou - shearUp * am;
  const bx = records[at + 3 + across]! - oa - shearAcross * bm;
  const by = records[at + 3 + up]! - ou - shearUp * bm;
  const cx = records[at + 6 + across]! - oa - shearAcross * cm;
  const cy = records[at + 6 + up]! - ou - shearUp * cm;
  const u = cx * by - cy * bx;
  const v = ax * cy - ay * cx;
  const w = bx * ay - by * ax;
  if ((u < 0 || v < 0 || w < 0) && (u > 0 || v > 0 || w > 0)) return false;
  const sum = u + v + w;
  const rounding =
    ROUNDING *
    (Math.abs(om) + Math.abs(oa) + Math.abs(ou) + Math.abs(am) + Math.abs(bm) + Math.abs(cm)) *
    (Math.abs(ax) + Math.abs(ay) + Math.abs(bx) + Math.abs(by) + Math.abs(cx) + Math.abs(cy));
  if (!(Math.abs(sum) > rounding)) return false;
  found.t0 = ((u * am + v * bm + w * cm) / sum) * ray.perMain;
  found.t1 = Number.NaN;
  return true;
}
