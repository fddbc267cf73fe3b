/** Grids in the angles of type C (γ from the axis, C about it) that are fine enough to follow a distribution. */
import { radiansFromDegrees } from '../math/angle.ts';
import { beamExponent } from './beam-profile.ts';
import type { CandelaTable, Distribution } from './distribution.ts';
import { intensityToward } from './intensity.ts';

/** A cosine between points this far apart is straight to 4e-5 of its peak. */
const COSINE_STEP_DEG = 1;

/** In x = (2α/θ_b)^(p/2), in which every beam is exp(−ln 2·x²); straight in between to 2e-4 of the peak. */
const BEAM_STEP = 1 / 32;
/** Where a beam has fallen to a millionth of its peak. */
const BEAM_END = Math.sqrt(Math.log2(1e6));

/** Tables of types A and B have no rings about the axis to follow: their own step, within these. */
const FINEST_STEP_DEG = 0.25;
const COARSEST_STEP_DEG = 2;

const PLANE_STEP_DEG = 5;
const FINE_PLANE_STEP_DEG = 2.5;

/** A table is continuous between its angles; where light ends sharply, it steps within this. */
export const STEP_WIDTH_DEG = 1e-3;

/** Angles this close are one: rounding must not make intervals of no width. */
const SAME_DEG = 1e-6;

/** γ in rising order, within 0…180, beyond the last of which the distribution is dark. */
export function polarAngles_deg(distribution: Distribution): number[] {
  switch (distribution.kind) {
    case 'lambert':
      return evenAngles_deg(0, 90, COSINE_STEP_DEG);
    case 'beam':
      return beamAngles_deg(distribution.beam_deg, distribution.field_deg);
    case 'table': {
      const { goniometry, vertical_deg, horizontal_deg } = distribution;
      if (goniometry === 'C') return withEnds(vertical_deg);
      const step = Math.min(smallestStep(vertical_deg), smallestStep(horizontal_deg));
      return evenAngles_deg(0, 180, Math.min(COARSEST_STEP_DEG, Math.max(FINEST_STEP_DEG, step)));
    }
  }
}

/** C of evenly spaced planes, an even number from 0 without the 360 that closes the circle; only 0 if all are alike. */
export function planeAngles_deg(distribution: Distribution): number[] {
  if (distribution.kind !== 'table') return [0];
  const { goniometry, horizontal_deg } = distribution;
  if (horizontal_deg.length === 1) return [0];
  // Types A and B are turned onto this grid askew, so that only the finer one holds their detail.
  const fine = goniometry !== 'C' || smallestStep(horizontal_deg) < PLANE_STEP_DEG;
  const step_deg = fine ? FINE_PLANE_STEP_DEG : PLANE_STEP_DEG;
  return Array.from({ length: 360 / step_deg }, (_, i) => step_deg * i);
}

/** From one angle to another in equal steps of at most `step_deg`, both ends included. */
export function evenAngles_deg(from_deg: number, to_deg: number, step_deg: number): number[] {
  const count = Math.ceil((to_deg - from_deg) / step_deg);
  return Array.from({ length: count + 1 }, (_, i) => from_deg + ((to_deg - from_deg) * i) / count);
}

/** The angles of both lists in rising order, each once. */
export function unitedAngles_deg(a: Iterable<number>, b: Iterable<number>): number[] {
  const sorted = [...a, ...b].sort((p, q) => p - q);
  return sorted.filter((angle, i) => i === 0 || angle - sorted[i - 1]! > SAME_DEG);
}

/** Intensity in candela toward γ, C. */
export function candelaAt(distribution: Distribution, gamma_deg: number, plane_deg: number): number {
  const gamma = radiansFromDegrees(gamma_deg);
  const C = radiansFromDegrees(plane_deg);
  const across = Math.sin(gamma);
  return intensityToward(distribution, across * Math.cos(C), across * Math.sin(C), Math.cos(gamma));
}

/** Candela at one γ, one for each plane. */
export interface Circle {
  readonly gamma_deg: number;
  readonly candela: Float64Array;
}

/** Circles in order of γ as a table; the planes are those of `planeAngles_deg`. */
export function tableOfCircles(circles: readonly Circle[], planes_deg: readonly number[]): CandelaTable {
  const closing = planes_deg.length > 1 ? [360] : [];
  const planes = [...planes_deg.keys(), ...closing.map(() => 0)];
  return {
    kind: 'table',
    goniometry: 'C',
    vertical_deg: Float64Array.from(circles, ({ gamma_deg }) => gamma_deg),
    horizontal_deg: Float64Array.from([...planes_deg, ...closing]),
    candela: Float64Array.from(planes.flatMap((plane) => circles.map(({ candela }) => candela[plane]!))),
  };
}

function beamAngles_deg(beam_deg: number, field_deg: number): number[] {
  const p = beamExponent(beam_deg, field_deg);
  const angles: number[] = [];
  for (let x = 0; x <= BEAM_END; x += BEAM_STEP) {
    const alpha_deg = (beam_deg / 2) * x ** (2 / p);
    if (alpha_deg >= 180) return [...angles, 180];
    angles.push(alpha_deg);
  }
  // The edge of the hardest beams is all within rounding of one angle.
  return [...angles, angles[angles.length - 1]! + STEP_WIDTH_DEG];
}

/** With the first angles at which the table is dark again. */
function withEnds(vertical_deg: Float64Array): number[] {
  const before_deg = vertical_deg[0]! - STEP_WIDTH_DEG;
  const after_deg = vertical_deg[vertical_deg.length - 1]! + STEP_WIDTH_DEG;
  return [before_deg, ...vertical_deg, after_deg].filter((gamma_deg) => gamma_deg >= 0 && gamma_deg <= 180);
}

function smallestStep(angles_deg: Float64Array): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (let i = 1; i < angles_deg.length; i++) {
    smallest = Math.min(smallest, angles_deg[i]! - angles_deg[i - 1]!);
  }
  return smallest;
}
