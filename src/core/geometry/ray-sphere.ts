import type { Crossings, Ray } from './ray.ts';
import { ORIGIN, PARAMETERS } from './shape-record.ts';

/** |o + t·d − c|² = r², solved from the point of closest approach: t = t_c ± √((r² − m²)/d·d), m the miss distance. */
export function sphereCrossings(records: Float64Array, at: number, ray: Ray, found: Crossings): boolean {
  const { line, dd } = ray;
  const dx = line[3]!;
  const dy = line[4]!;
  const dz = line[5]!;
  const px = line[0]! - records[at + ORIGIN]!;
  const py = line[1]! - records[at + ORIGIN + 1]!;
  const pz = line[2]! - records[at + ORIGIN + 2]!;
  const r = records[at + PARAMETERS]!;
  const closest = -(px * dx + py * dy + pz * dz) / dd;
  const mx = px + closest * dx;
  const my = py + closest * dy;
  const mz = pz + closest * dz;
  const h2 = r * r - (mx * mx + my * my + mz * mz);
  if (!(h2 > 0)) return false;
  const half = Math.sqrt(h2 / dd);
  found.t0 = closest - half;
  found.t1 = closest + half;
  return true;
}
