/**
 * Luminous flux of a distribution, Φ = ∫ I dΩ over the sphere.
 *
 * Solid angle in the goniometer's own angles: type C sin γ dγ dC, type A cos V dV dH, type B cos H dH dV. One angle of
 * each is polar (γ, V, H), the other turns about the pole.
 */
import { radiansFromDegrees } from '../math/angle.ts';
import { adaptiveIntegral } from './adaptive-integral.ts';
import { beamExponent, beamProfile } from './beam-profile.ts';
import type { CandelaTable, Distribution } from './distribution.ts';

/**
 * Flux in lumens: closed for a Lambertian face (π·I₀), the exact integral of the bilinear interpolant for a table, and
 * quadrature to 1e-9 for a beam.
 */
export function flux_lm(distribution: Distribution): number {
  switch (distribution.kind) {
    case 'lambert':
      return Math.PI * distribution.peak_cd;
    case 'beam':
      return distribution.peak_cd * beamFluxPerPeak_sr(distribution.beam_deg, distribution.field_deg);
    case 'table':
      return weightedSum(distribution, interpolantWeights);
  }
}

/**
 * Flux in lumens by the zonal method of the trade: every cell of the grid counts with the mean of its four corners
 * times its solid angle (IES Lighting Handbook, zonal constants; LM-35 for type B). This is the total that
 * photometric reports print; it differs from `flux_lm` by up to some tenths of a percent on coarse grids.
 */
export function zonalFlux_lm(table: CandelaTable): number {
  return weightedSum(table, cornerMeanWeights);
}

/** Weights of the polar angle's nodes in ∫ I(x) ρ(x) dx, one zone at a time: its half-width, ρ and ρ′ at its middle. */
type PolarRule = (half: number, density: number, slope: number) => readonly [number, number];

/**
 * Exact for I linear over a zone of half-width h about m, with ρ = sin or cos (so ρ″ = −ρ). With u = x − m,
 *   A = ∫ ρ du = 2 ρ(m) sin h
 *   B = (1/h) ∫ u ρ du = 2 ρ′(m) (sin h / h − cos h)
 * and the hat functions (1 ∓ u/h)/2 of the two ends integrate to (A ∓ B)/2.
 */
const interpolantWeights: PolarRule = (h, density, slope) => {
  const whole = 2 * density * Math.sin(h);
  const skew = 2 * slope * sincMinusCos(h);
  return [(whole - skew) / 2, (whole + skew) / 2];
};

/** Half of the zone's solid angle to each end. */
const cornerMeanWeights: PolarRule = (h, density) => {
  const half = density * Math.sin(h);
  return [half, half];
};

function weightedSum(table: CandelaTable, rule: PolarRule): number {
  const { goniometry, vertical_deg, horizontal_deg, candela } = table;
  const polarIsVertical = goniometry !== 'B';
  const polar = polarWeights(polarIsVertical ? vertical_deg : horizontal_deg, goniometry === 'C', rule);
  const turning = turningWeights(polarIsVertical ? horizontal_deg : vertical_deg);
  const [v, h] = polarIsVertical ? [polar, turning] : [turning, polar];
  let sum = 0;
  for (let i = 0; i < h.length; i++) {
    let plane = 0;
    for (let j = 0; j < v.length; j++) plane += v[j]! * candela[i * v.length + j]!;
    sum += h[i]! * plane;
  }
  return sum;
}

function polarWeights(angles_deg: Float64Array, fromPole: boolean, rule: PolarRule): Float64Array {
  const weights = new Float64Array(angles_deg.length);
  for (let i = 1; i < angles_deg.length; i++) {
    const middle = radiansFromDegrees((angles_deg[i - 1]! + angles_deg[i]!) / 2);
    const half = radiansFromDegrees((angles_deg[i]! - angles_deg[i - 1]!) / 2);
    const [density, slope] = fromPole
      ? [Math.sin(middle), Math.cos(middle)]
      : [Math.cos(middle), -Math.sin(middle)];
    const [near, far] = rule(half, density, slope);
    weights[i - 1]! += near;
    weights[i]! += far;
  }
  return weights;
}

/** Trapezoidal: exact for what is linear in the angle, and the corner mean as well. */
function turningWeights(angles_deg: Float64Array): Float64Array {
  if (angles_deg.length === 1) return Float64Array.of(2 * Math.PI);
  const weights = new Float64Array(angles_deg.length);
  for (let i = 1; i < angles_deg.length; i++) {
    const half = radiansFromDegrees(angles_deg[i]! - angles_deg[i - 1]!) / 2;
    weights[i - 1]! += half;
    weights[i]! += half;
  }
  return weights;
}

/** sin h / h − cos h; by its series where the difference would cancel. */
function sincMinusCos(h: number): number {
  if (h > 0.1) return Math.sin(h) / h - Math.cos(h);
  const q = h * h;
  return q * (1 / 3 - q * (1 / 30 - q * (1 / 840 - q / 45360)));
}

/** Where the profile has fallen to e^−45 it no longer counts. */
const NEGLIGIBLE_EXPONENT = 45;
const RELATIVE_TOLERANCE = 1e-11;
const NEGLIGIBLE_SHARE = 1e-14;

/**
 * 2π ∫ profile(α) sin α dα over 0…π. Integrated over u = ln α, in which narrow beams, long tails and steep edges alike
 * have features of order 1 or 1/p, with the ends of the beam and field as knots.
 */
function beamFluxPerPeak_sr(beam_deg: number, field_deg: number): number {
  const beam = radiansFromDegrees(beam_deg);
  const p = beamExponent(beam_deg, field_deg);
  const reach = (beam / 2) * (NEGLIGIBLE_EXPONENT / Math.LN2) ** (1 / p);
  // Below 1e-7 of the beam lies 1e-14 of its flux.
  const knots = [(beam / 2) * 1e-7, beam / 2, radiansFromDegrees(field_deg) / 2, reach]
    .map((alpha) => Math.log(Math.min(alpha, Math.PI)))
    .sort((p, q) => p - q);
  const integrand = (u: number): number => {
    const alpha = Math.exp(u);
    return beamProfile(alpha, beam, p) * Math.sin(alpha) * alpha;
  };
  // Inside the beam the profile is above one half, so the whole is at least (1 − cos(θ_b/2))/2 = sin²(θ_b/4).
  const agreement = {
    relative: RELATIVE_TOLERANCE,
    absolute: NEGLIGIBLE_SHARE * Math.sin(beam / 4) ** 2,
  };
  let sum = 0;
  for (let i = 1; i < knots.length; i++) {
    const [from, to] = [knots[i - 1]!, knots[i]!];
    if (to > from) sum += adaptiveIntegral(integrand, from, to, agreement);
  }
  return 2 * Math.PI * sum;
}
