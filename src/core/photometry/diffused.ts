/**
 * A lamp's distribution behind a sheet of diffusion:
 *
 *   I′ = direct·I + (1 − direct)·k·S in front (a > 0),   I′ = I behind
 *
 * S the light that the lobe of the sheet has scattered, k such that k·S holds the flux that I sends forward; the loss of
 * the sheet is not in here. Light that leaves the lamp backward never meets the sheet. Model of our own, no source: a real
 * sheet scatters oblique light otherwise than straight light, and k gives back evenly what the lobe sends past 90° (8 % of
 * a Lambertian lamp through 60°, nothing of a narrow beam). The emitting face stays the lamp's: diffusion on a frame well
 * before the lamp is a pane.
 */
import type { CandelaTable, Distribution } from './distribution.ts';
import { flux_lm } from './flux.ts';
import { fluxRings } from './flux-rings.ts';
import { ringAngles_deg, scatteredLight } from './scattered-light.ts';
import { scatteringLobe } from './scattering-lobe.ts';
import {
  type Circle,
  candelaAt,
  planeAngles_deg,
  polarAngles_deg,
  STEP_WIDTH_DEG,
  tableOfCircles,
  unitedAngles_deg,
} from './type-c-grid.ts';

const EDGE_DEG = 90;

/**
 * The distribution widened by a sheet: `direct` is the share of what passes that stays straight, `spread_deg` the full
 * angle at half strength of what is scattered. Same flux; type C, one plane when the light is the same all round.
 * RangeError unless 0 ≤ direct ≤ 1 and 2 ≤ spread_deg ≤ 180.
 */
export function diffused(distribution: Distribution, direct: number, spread_deg: number): Distribution {
  if (!(direct >= 0 && direct <= 1)) {
    throw new RangeError(`direct share of the diffusion is ${direct}; give 0 to 1 (write 25 % as 0.25)`);
  }
  const lobe = scatteringLobe(spread_deg);
  if (direct === 1) return distribution;
  const rings = fluxRings(distribution, ringAngles_deg(lobe));
  const forward_lm = rings.flux_lm.reduce((sum, flux) => sum + flux, 0);
  if (!(forward_lm > 0)) return distribution;
  const scattered = withFlux(scatteredLight(rings, lobe), (1 - direct) * forward_lm);
  return withFlux(joined(distribution, direct, scattered), flux_lm(distribution));
}

function joined(distribution: Distribution, direct: number, scattered: CandelaTable): CandelaTable {
  const planes_deg = planeAngles_deg(distribution);
  const own_deg = polarAngles_deg(distribution);
  const circle = (gamma_deg: number, at: (plane_deg: number) => number): Circle => ({
    gamma_deg,
    candela: Float64Array.from(planes_deg, at),
  });
  const straight_deg = direct > 0 ? own_deg.filter((gamma_deg) => gamma_deg < EDGE_DEG) : [];
  const front = unitedAngles_deg(scattered.vertical_deg, straight_deg).map((gamma_deg) =>
    circle(
      gamma_deg,
      (C) => direct * candelaAt(distribution, gamma_deg, C) + candelaAt(scattered, gamma_deg, C),
    ),
  );
  const beyond_deg = EDGE_DEG + STEP_WIDTH_DEG;
  const back = unitedAngles_deg(
    [beyond_deg],
    own_deg.filter((gamma_deg) => gamma_deg > beyond_deg),
  ).map((gamma_deg) => circle(gamma_deg, (C) => candelaAt(distribution, gamma_deg, C)));
  const litBehind = back.some(({ candela }) => candela.some((I) => I > 0));
  return tableOfCircles(litBehind ? [...front, ...back] : front, planes_deg);
}

function withFlux(table: CandelaTable, wanted_lm: number): CandelaTable {
  const scale = wanted_lm / flux_lm(table);
  return { ...table, candela: table.candela.map((I) => I * scale) };
}
