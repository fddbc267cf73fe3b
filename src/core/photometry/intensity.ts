import { beamExponent, beamProfile } from './beam-profile.ts';
import type { CandelaTable, Distribution } from './distribution.ts';

const DEGREES = 180 / Math.PI;

/** Directions this close outside the measured range count as on its edge: rounding must not darken a rim. */
const EDGE_DEG = 1e-9;

/**
 * Luminous intensity in candela toward a direction, given by the components of its unit vector in the lamp's frame:
 * r right, t top, a along the axis. Does not allocate; called millions of times.
 *
 * Type C: γ = angle from a, C from r toward t (counter-clockwise seen from above where a points down).
 * Type A: t = sin V, r = cos V sin H, a = cos V cos H. Type B: r = sin H, t = cos H sin V, a = cos H cos V. In both, H
 * grows to the right (clockwise seen from above where a is level) and V upward (LM-63-2002 § 3).
 * Angles come from atan2, since acos loses half its digits near the axis, where the light is.
 */
export function intensityToward(distribution: Distribution, r: number, t: number, a: number): number {
  switch (distribution.kind) {
    case 'lambert':
      return a > 0 ? distribution.peak_cd * a : 0;
    case 'beam': {
      const alpha_deg = Math.atan2(Math.sqrt(r * r + t * t), a) * DEGREES;
      const p = beamExponent(distribution.beam_deg, distribution.field_deg);
      return distribution.peak_cd * beamProfile(alpha_deg, distribution.beam_deg, p);
    }
    case 'table':
      return tabulatedIntensity(distribution, r, t, a);
  }
}

function tabulatedIntensity(table: CandelaTable, r: number, t: number, a: number): number {
  switch (table.goniometry) {
    case 'C': {
      const gamma_deg = Math.atan2(Math.sqrt(r * r + t * t), a) * DEGREES;
      if (table.horizontal_deg.length === 1) return alongPlane(table, gamma_deg);
      const c_deg = Math.atan2(t, r) * DEGREES;
      return bilinear(table, c_deg < 0 ? c_deg + 360 : c_deg, gamma_deg);
    }
    case 'A':
      return bilinear(table, Math.atan2(r, a) * DEGREES, Math.atan2(t, Math.sqrt(r * r + a * a)) * DEGREES);
    case 'B':
      return bilinear(table, Math.atan2(r, Math.sqrt(t * t + a * a)) * DEGREES, Math.atan2(t, a) * DEGREES);
  }
}

/** The only plane of a rotationally symmetric table. */
function alongPlane(table: CandelaTable, vertical_deg: number): number {
  const { vertical_deg: angles, candela } = table;
  const v = intervalAt(angles, vertical_deg);
  if (v < 0) return 0;
  const s = shareAlong(angles, v, vertical_deg);
  return candela[v]! * (1 - s) + candela[v + 1]! * s;
}

function bilinear(table: CandelaTable, horizontal_deg: number, vertical_deg: number): number {
  const { horizontal_deg: planes, vertical_deg: angles, candela } = table;
  const v = intervalAt(angles, vertical_deg);
  if (v < 0) return 0;
  const h = intervalAt(planes, horizontal_deg);
  if (h < 0) return 0;
  const s = shareAlong(angles, v, vertical_deg);
  const u = shareAlong(planes, h, horizontal_deg);
  const near = h * angles.length + v;
  const far = near + angles.length;
  const nearCandela = candela[near]! * (1 - s) + candela[near + 1]! * s;
  const farCandela = candela[far]! * (1 - s) + candela[far + 1]! * s;
  return nearCandela * (1 - u) + farCandela * u;
}

/** Index of the interval that holds `x`, or −1 outside all of them. */
function intervalAt(angles: Float64Array, x: number): number {
  const last = angles.length - 1;
  const first_deg = angles[0]!;
  const last_deg = angles[last]!;
  if (!(x >= first_deg - EDGE_DEG && x <= last_deg + EDGE_DEG)) return -1;
  // Most files step evenly, so the proportional guess hits; uneven ones fall through to bisection.
  const guess = Math.floor(((x - first_deg) / (last_deg - first_deg)) * last);
  if (guess >= 0 && guess < last && angles[guess]! <= x && x < angles[guess + 1]!) return guess;
  let low = 0;
  let high = last - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (angles[middle]! <= x) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** How far along its interval `x` lies, 0 to 1. */
function shareAlong(angles: Float64Array, i: number, x: number): number {
  const from = angles[i]!;
  const share = (x - from) / (angles[i + 1]! - from);
  return Math.min(1, Math.max(0, share));
}
