import type { Vec3 } from '../../core/math/vec3.ts';

/** To the centimetre that a tape is read to; a document that is built by hand is read by hand too. */
export function toCentimetre(length_m: number): number {
  return Number(length_m.toFixed(2)) + 0;
}

export function pointToCentimetre([x, y, z]: Vec3): [number, number, number] {
  return [toCentimetre(x), toCentimetre(y), toCentimetre(z)];
}
