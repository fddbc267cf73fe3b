import { radiansFromDegrees } from '../../../../src/core/math/angle.ts';
import type { Vec3 } from '../../../../src/core/math/vec3.ts';
import { evaluateSurface } from '../../../../src/core/surfaces/evaluate.ts';
import type { SurfaceOptics } from '../../../../src/core/surfaces/surface-optics.ts';

/** Unit direction `theta_deg` off the normal, in the xz-plane. */
export function tilted(theta_deg: number): Vec3 {
  const theta = radiansFromDegrees(theta_deg);
  return [Math.sin(theta), 0, Math.cos(theta)];
}

/**
 * A cell of half vectors in squeezed polar coordinates: tan²θ_h = α²·u/(1 − u), azimuth φ. Even cells in u and φ follow
 * a lobe however narrow it is, whatever the program's own sampling does.
 */
export interface HalfVectorCell {
  readonly u: readonly [from: number, to: number];
  readonly phi: readonly [from: number, to: number];
}

export const ALL_HALF_VECTORS: HalfVectorCell = { u: [0, 1], phi: [0, 2 * Math.PI] };

/**
 * ∫ g(h, i)·dω_i over the reflections i of o in the cell's half vectors h, above the surface and below: midpoint rule
 * with dω_i = 4(o·h)·dω_h and dω_h = ½·α²·cos³θ_h/(1 − u)² du dφ. u = t(2 − t) takes the singularity off the end.
 */
export function overReflections(
  alpha: number,
  o: Vec3,
  cell: HalfVectorCell,
  points: number,
  g: (hx: number, hy: number, hz: number, ix: number, iy: number, iz: number) => number,
): number {
  const t0 = 1 - Math.sqrt(1 - cell.u[0]);
  const dt = (1 - Math.sqrt(1 - cell.u[1]) - t0) / points;
  const dphi = (cell.phi[1] - cell.phi[0]) / points;
  let sum = 0;
  for (let j = 0; j < points; j++) {
    const rest = 1 - (t0 + (j + 0.5) * dt);
    const tan2 = alpha * alpha * (1 / (rest * rest) - 1);
    const hz = 1 / Math.sqrt(1 + tan2);
    const sin = hz * Math.sqrt(tan2);
    const solidAngle = (alpha * alpha * hz ** 3 * dt * dphi) / rest ** 3;
    for (let k = 0; k < points; k++) {
      const phi = cell.phi[0] + (k + 0.5) * dphi;
      const hx = sin * Math.cos(phi);
      const hy = sin * Math.sin(phi);
      const oh = o[0] * hx + o[1] * hy + o[2] * hz;
      if (oh <= 0) continue;
      sum += g(hx, hy, hz, 2 * oh * hx - o[0], 2 * oh * hy - o[1], 2 * oh * hz - o[2]) * 4 * oh * solidAngle;
    }
  }
  return sum;
}

/** Albedo of one channel for light from o, integrated from f itself, without the program's tables or sampler. */
export function integratedAlbedo(
  optics: SurfaceOptics,
  o: Vec3,
  which: 'all' | 'diffuse' | 'glossy',
  channel = 0,
  points = 160,
): number {
  const f = new Float64Array(3);
  let albedo = 0;
  if (which !== 'diffuse' && optics.glossy) {
    albedo += overReflections(optics.alpha, o, ALL_HALF_VECTORS, points, (_x, _y, _z, ix, iy, iz) => {
      evaluateSurface(optics, ix, iy, iz, ...o, 'glossy', f);
      return f[channel]! * Math.max(0, iz);
    });
  }
  if (which !== 'glossy') {
    // The base sends the same to every azimuth: 2π∫f·c·dc, with c = t² to be fine at grazing.
    const N = 400;
    for (let k = 0; k < N; k++) {
      const t = (k + 0.5) / N;
      evaluateSurface(optics, Math.sqrt(1 - t ** 4), 0, t * t, ...o, 'diffuse', f);
      albedo += (f[channel]! * 4 * Math.PI * t ** 3) / N;
    }
  }
  return albedo;
}
