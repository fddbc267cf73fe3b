import type { Haze } from '../light-model/light-model.ts';
import { hazeAlong, newHazeStretches } from './haze-region.ts';

const stretches = newHazeStretches();

/** How much of 0..D of a ray with a unit direction lies in haze: all of it where haze is everywhere. */
export function hazedLength_m(
  haze: Haze,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
): number {
  if (haze.regions === null) return D;
  hazeAlong(haze.regions, ox, oy, oz, dx, dy, dz, D, stretches);
  return stretches.length_m;
}

/** What haze lets through straight along 0..D of a ray with a unit direction: e^(−σ_t·d) of what of it is hazed. */
export function hazeTransmittance(
  haze: Haze | null,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
): number {
  return haze ? Math.exp(-haze.extinction_per_m * hazedLength_m(haze, ox, oy, oz, dx, dy, dz, D)) : 1;
}
