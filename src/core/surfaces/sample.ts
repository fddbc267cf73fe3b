import { evaluateSurface, glossyShare, lobePdf } from './evaluate.ts';
import { visibleNormal } from './ggx.ts';
import type { SurfaceOptics } from './surface-optics.ts';

/** A direction drawn from a surface. One object serves any number of draws. */
export interface SurfaceSample {
  /** Unit direction, local; z along the normal. */
  x: number;
  y: number;
  z: number;
  /** Density of the direction, 1/sr, with the chance of the lobe: of the lobe it was drawn from, or over both. */
  pdf: number;
  /** f·cos θ/pdf of that lobe, or of both, in linear R, G, B. */
  r: number;
  g: number;
  b: number;
  /** Drawn from the coat's or metal's lobe, not from the base. */
  glossy: boolean;
}

export function newSurfaceSample(): SurfaceSample {
  return { x: 0, y: 0, z: 1, pdf: 0, r: 0, g: 0, b: 0, glossy: false };
}

const normal = new Float64Array(3);
const f = new Float64Array(3);

/**
 * Draws a direction for the unit local direction o, o_z > 0: from the coat's or the metal's visible normals, or from the
 * cosine of the base, by their parts of the reflected light. False where the draw ended below the surface and carries no
 * light: then pdf, r, g, b are 0, and it counts as one of the draws whose mean weight is the albedo. Allocates nothing.
 * @param u 0 ≤ u < 1, with v the direction inside the lobe
 * @param w 0 ≤ w < 1, chooses the lobe
 * @param apart weighs the direction by the lobe it was drawn from alone, for a path tracer that finds lamps differently
 *   for base and coat; else by both, which varies less
 */
export function sampleSurface(
  optics: SurfaceOptics,
  ox: number,
  oy: number,
  oz: number,
  u: number,
  v: number,
  w: number,
  apart: boolean,
  sample: SurfaceSample,
): boolean {
  sample.pdf = 0;
  sample.r = 0;
  sample.g = 0;
  sample.b = 0;
  if (!(oz > 0)) return false;
  const phi = 2 * Math.PI * v;
  const cosPhi = Math.cos(phi);
  const sinPhi = Math.sin(phi);
  let x: number;
  let y: number;
  let z: number;
  sample.glossy = w < glossyShare(optics, oz);
  if (sample.glossy) {
    visibleNormal(optics.alpha, ox, oy, oz, u, cosPhi, sinPhi, normal);
    const twiceOH = 2 * (ox * normal[0]! + oy * normal[1]! + oz * normal[2]!);
    x = twiceOH * normal[0]! - ox;
    y = twiceOH * normal[1]! - oy;
    z = twiceOH * normal[2]! - oz;
  } else {
    const r = Math.sqrt(u);
    x = r * cosPhi;
    y = r * sinPhi;
    z = Math.sqrt(1 - u);
  }
  sample.x = x;
  sample.y = y;
  sample.z = z;
  let pdf = lobePdf(optics, x, y, z, ox, oy, oz, sample.glossy);
  if (pdf === 0) return false;
  if (!apart) pdf += lobePdf(optics, x, y, z, ox, oy, oz, !sample.glossy);
  evaluateSurface(optics, x, y, z, ox, oy, oz, apart ? (sample.glossy ? 'glossy' : 'diffuse') : 'all', f);
  const scale = z / pdf;
  sample.pdf = pdf;
  sample.r = f[0]! * scale;
  sample.g = f[1]! * scale;
  sample.b = f[2]! * scale;
  return true;
}
