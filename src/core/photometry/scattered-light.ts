/**
 * S(ω) = ∫ I(ω′) p(δ) dω′ over a > 0, for the same half of the sphere: light that a lobe p has scattered, δ the angle
 * between ω and ω′. What is scattered past 90° is left out.
 *
 * Method: a sum over rings of flux a twelfth of the spread apart, at angles that are halved until S is straight in between
 * to 5e-4 of its peak. Errors met against a fine double integral: below 3e-4 of the peak.
 */
import { radiansFromDegrees } from '../math/angle.ts';
import type { CandelaTable } from './distribution.ts';
import type { FluxRings } from './flux-rings.ts';
import { lobe_per_sr, meanLobeOnRing_per_sr, type ScatteringLobe } from './scattering-lobe.ts';
import { type Circle, evenAngles_deg, tableOfCircles } from './type-c-grid.ts';

const RINGS_A_SPREAD = 12;
/** Lobes beyond Lambert's end in an edge at 90°, which takes rings closer than their spread asks for. */
const WIDEST_RING_DEG = 2;

/** Of the peak: how far S may bend from straight between its angles. */
const BEND = 5e-4;
const COARSEST_STEP_DEG = 5;
/** Halvings of the first steps at most. */
const HALVINGS = 5;

/** Angles of the rings on which flux is to be gathered for a lobe. */
export function ringAngles_deg({ spread_deg }: ScatteringLobe): number[] {
  return evenAngles_deg(0, 90, Math.min(WIDEST_RING_DEG, spread_deg / RINGS_A_SPREAD));
}

/** S in candela, on the planes of the rings. */
export function scatteredLight(rings: FluxRings, lobe: ScatteringLobe): CandelaTable {
  // S has no feature narrower than the spread, so steps of that size miss none.
  const first = evenAngles_deg(0, 90, Math.min(COARSEST_STEP_DEG, lobe.spread_deg)).map((gamma_deg) =>
    scatteredAt(rings, lobe, gamma_deg),
  );
  const allowed =
    BEND * first.reduce((peak, { candela }) => candela.reduce((m, I) => Math.max(m, I), peak), 0);
  const circles = first.slice(0, 1);
  const add = (from: Circle, to: Circle, halvings: number): void => {
    const between = scatteredAt(rings, lobe, (from.gamma_deg + to.gamma_deg) / 2);
    if (halvings > 0 && bend(from, between, to) > allowed) {
      add(from, between, halvings - 1);
      add(between, to, halvings - 1);
    } else {
      circles.push(between, to);
    }
  };
  for (let i = 1; i < first.length; i++) add(first[i - 1]!, first[i]!, HALVINGS);
  return tableOfCircles(circles, rings.planes_deg);
}

/** How far the middle lies from halfway, in the plane where that is most. */
function bend(from: Circle, between: Circle, to: Circle): number {
  return between.candela.reduce(
    (most, I, plane) => Math.max(most, Math.abs(I - (from.candela[plane]! + to.candela[plane]!) / 2)),
    0,
  );
}

function scatteredAt(rings: FluxRings, lobe: ScatteringLobe, gamma_deg: number): Circle {
  const count = rings.planes_deg.length;
  const candela = new Float64Array(count);
  const gamma = radiansFromDegrees(gamma_deg);
  for (const [j, ring_deg] of rings.gamma_deg.entries()) {
    const ring = radiansFromDegrees(ring_deg);
    const mean = meanLobeOnRing_per_sr(lobe, gamma, ring);
    if (mean === 0) continue;
    const along = count === 1 ? Float64Array.of(mean) : lobeAlongRing(lobe, gamma, ring, mean, count);
    addSectors(candela, rings.flux_lm.subarray(j * count, (j + 1) * count), along);
  }
  return { gamma_deg, candela: candela.map((I) => Math.max(0, I)) };
}

/** p toward the sectors of a ring, by how many they are away, scaled to the true mean: sectors may be wider than p. */
function lobeAlongRing(
  lobe: ScatteringLobe,
  gamma: number,
  ring: number,
  mean: number,
  count: number,
): Float64Array {
  const A = Math.cos(gamma) * Math.cos(ring);
  const B = Math.sin(gamma) * Math.sin(ring);
  const along = Float64Array.from({ length: count }, (_, away) =>
    lobe_per_sr(lobe, A + B * Math.cos((2 * Math.PI * away) / count)),
  );
  const scale = (mean * count) / along.reduce((sum, p) => sum + p, 0);
  return along.map((p) => p * scale);
}

function addSectors(candela: Float64Array, flux: Float64Array, along: Float64Array): void {
  const count = candela.length;
  for (let away = 0; away < count; away++) {
    const p = along[away]!;
    if (p === 0) continue;
    for (let plane = 0; plane < count; plane++) {
      const from = plane + away;
      candela[plane]! += p * flux[from < count ? from : from - count]!;
    }
  }
}
