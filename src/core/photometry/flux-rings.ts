import { radiansFromDegrees } from '../math/angle.ts';
import type { Distribution } from './distribution.ts';
import { candelaAt, planeAngles_deg, polarAngles_deg, unitedAngles_deg } from './type-c-grid.ts';

/**
 * The flux that a distribution sends forward (a > 0), gathered on rings about the axis, each in equal sectors. A sum over
 * the rings of F·f(γ, C) is the integral of I·f for any f that bends little from ring to ring.
 */
export interface FluxRings {
  /** Evenly from the axis to 90°. */
  readonly gamma_deg: readonly number[];
  /** The middles of the sectors. */
  readonly planes_deg: readonly number[];
  /** flux_lm[ring · planes + plane]. A ring beside a sharp edge may hold a little less than nothing. */
  readonly flux_lm: Float64Array;
}

/** Points of a two-point Gauss rule on [−1, 1], each of weight 1. */
const GAUSS = [-Math.sqrt(1 / 3), Math.sqrt(1 / 3)] as const;

/**
 * Each bit of flux, at t ring steps from the ring that is nearest, is shared among that ring and its neighbours as
 * t(t − 1)/2, 1 − t², t(t + 1)/2: sum, mean and mean square of its angle are kept.
 */
export function fluxRings(distribution: Distribution, gamma_deg: readonly number[]): FluxRings {
  const last = gamma_deg.length - 1;
  const edge_deg = gamma_deg[last]!;
  const step_deg = edge_deg / last;
  const planes_deg = planeAngles_deg(distribution);
  const count = planes_deg.length;
  const flux = new Float64Array(gamma_deg.length * count);
  const knots = unitedAngles_deg(gamma_deg, polarAngles_deg(distribution)).filter((g) => g <= edge_deg);
  for (let i = 1; i < knots.length; i++) {
    const middle = (knots[i - 1]! + knots[i]!) / 2;
    const half = (knots[i]! - knots[i - 1]!) / 2;
    const sector = radiansFromDegrees(half) * ((2 * Math.PI) / count);
    for (const node of GAUSS) {
      const gamma = middle + half * node;
      const solidAngle_sr = Math.sin(radiansFromDegrees(gamma)) * sector;
      const ring = Math.min(last - 1, Math.round(gamma / step_deg));
      const t = gamma / step_deg - ring;
      for (let plane = 0; plane < count; plane++) {
        const bit_lm = candelaAt(distribution, gamma, planes_deg[plane]!) * solidAngle_sr;
        // Inward of the axis lies the first ring again, on the other side.
        const inward = ring > 0 ? (ring - 1) * count + plane : count + ((plane + (count >> 1)) % count);
        flux[inward]! += ((t * (t - 1)) / 2) * bit_lm;
        flux[ring * count + plane]! += (1 - t * t) * bit_lm;
        flux[(ring + 1) * count + plane]! += ((t * (t + 1)) / 2) * bit_lm;
      }
    }
  }
  return { gamma_deg, planes_deg, flux_lm: flux };
}
