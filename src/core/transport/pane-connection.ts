import { transmittance } from '../geometry/ray-query.ts';
import { hazeTransmittance } from '../haze/transmittance.ts';
import { nextRandom, type RandomState } from '../math/random.ts';
import { lobeTransmission } from '../surfaces/pane-lobe.ts';
import { type Arrival, type Connection, chosenByWeight, type PathDensity } from './connection.ts';
import { type LampSight, newLampSight, seeLamp } from './lamp-sight.ts';
import { clearance_m } from './source-sample.ts';
import type { Tracer } from './tracer.ts';

/**
 * Light of lamps that a scattering pane sends on to a point x: the pane is a source. A sheet is chosen by the solid angle
 * that it may fill, a point of it evenly, a lamp by what it gives there (resampled importance, Talbot 2005); then two
 * legs are traced. A path that merely runs into the pane finds the same light, so the two are weighed by the balance
 * heuristic (Veach 1997) in the density of directions at x.
 */
let lampWeights = new Float64Array(16);
let sheetWeights = new Float64Array(64);
const sights: LampSight[] = [];

/** One estimate of all lamp light scattered by panes toward x; `pathDensity(w)` is that of the path's own directions. */
export function connectPane(
  tracer: Tracer,
  random: RandomState,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
  arrival: Arrival,
  pathDensity: PathDensity,
  found: Connection,
): boolean {
  const { scatterers, model } = tracer;
  if (scatterers.length === 0) return false;
  const total = weighSheets(tracer, px, py, pz);
  const chosen = chosenByWeight(sheetWeights, scatterers.length, total, nextRandom(random));
  if (chosen < 0) return false;
  const sheet = scatterers[chosen]!;
  const chance = sheetWeights[chosen]! / total;
  const { origin_m: c, x: u, y: v, z: n } = sheet.placement;
  const qu = (2 * nextRandom(random) - 1) * sheet.halfSize_m[0];
  const qv = (2 * nextRandom(random) - 1) * sheet.halfSize_m[1];
  const qx = c[0] + qu * u[0] + qv * v[0];
  const qy = c[1] + qu * u[1] + qv * v[1];
  const qz = c[2] + qu * u[2] + qv * v[2];
  const [dx, dy, dz] = [qx - px, qy - py, qz - pz];
  const d = Math.sqrt(dx * dx + dy * dy + dz * dz);
  if (d < 1e-6) return false;
  const [wx, wy, wz] = [dx / d, dy / d, dz / d];
  const cosArrival = wx * nx + wy * ny + wz * nz;
  if (arrival === 'surface' && cosArrival <= 0) return false;

  const scattered = scatteredToward(
    tracer,
    random,
    sheet.pane,
    qx,
    qy,
    qz,
    -wx,
    -wy,
    -wz,
    n[0],
    n[1],
    n[2],
    found,
  );
  if (!scattered) return false;
  const clear = clearance_m(d);
  const leg = transmittance(model.geometry, px, py, pz, wx, wy, wz, clear, d - clear, model.paneDirect);
  if (leg === 0) return false;
  const cosOut = Math.abs(wx * n[0] + wy * n[1] + wz * n[2]);
  const density = (chance * d * d) / (sheet.area_m2 * cosOut);
  const balanced = 1 / (density + pathDensity(wx, wy, wz));
  const k = leg * hazeTransmittance(model.haze, px, py, pz, wx, wy, wz, d) * balanced;
  found.wx = wx;
  found.wy = wy;
  found.wz = wz;
  found.r *= k;
  found.g *= k;
  found.b *= k;
  return true;
}

/** Density, per steradian at x, with which `connectPane` finds a point of this part at distance d under this cosine. */
export function paneConnectionDensity(
  tracer: Tracer,
  px: number,
  py: number,
  pz: number,
  part: number,
  d: number,
  cosOut: number,
): number {
  const total = weighSheets(tracer, px, py, pz);
  const index = tracer.scatterers.findIndex((sheet) => sheet.part === part);
  if (index < 0 || !(total > 0)) return 0;
  return ((sheetWeights[index]! / total) * d * d) / (tracer.scatterers[index]!.area_m2 * cosOut);
}

/**
 * Radiance (linear RGB, cd/m²) of lamp light that a pane scatters at q toward o, in `found.r, g, b`, one lamp of all
 * chosen and its leg traced. False when it is nothing.
 */
export function scatteredToward(
  tracer: Tracer,
  random: RandomState,
  pane: number,
  qx: number,
  qy: number,
  qz: number,
  ox: number,
  oy: number,
  oz: number,
  nx: number,
  ny: number,
  nz: number,
  found: Connection,
): boolean {
  const { model, litLamps } = tracer;
  const lobe = tracer.paneLobes[pane]!;
  const onSide = ox * nx + oy * ny + oz * nz;
  const cosOut = Math.abs(onSide);
  if (cosOut < 1e-6) return false;
  if (lampWeights.length < litLamps.length) lampWeights = new Float64Array(2 * litLamps.length);
  let total = 0;
  for (let i = 0; i < litLamps.length; i++) {
    sights[i] ??= newLampSight();
    const sight = sights[i]!;
    seeLamp(
      tracer.emitters[litLamps[i]!]!,
      model.haze,
      qx,
      qy,
      qz,
      nextRandom(random),
      nextRandom(random),
      sight,
    );
    const fromSide = sight.wx * nx + sight.wy * ny + sight.wz * nz;
    lampWeights[i] = 0;
    // Light passes through: lamp and receiver on opposite sides.
    if (fromSide * onSide >= 0) continue;
    const cosIn = Math.abs(fromSide);
    const cosDelta = -(sight.wx * ox + sight.wy * oy + sight.wz * oz);
    lampWeights[i] = sight.normal_lx * cosIn * lobeTransmission(lobe, cosIn, cosOut, cosDelta);
    total += lampWeights[i]!;
  }
  const chosen = chosenByWeight(lampWeights, litLamps.length, total, nextRandom(random));
  if (chosen < 0) return false;
  const { wx, wy, wz, d_m } = sights[chosen]!;
  const clear = clearance_m(d_m);
  const leg = transmittance(model.geometry, qx, qy, qz, wx, wy, wz, clear, d_m - clear, model.paneDirect);
  if (leg === 0) return false;
  const lamp = litLamps[chosen]!;
  const L = total * leg * model.panes[pane]!.scattered;
  found.lamp = lamp;
  found.r = L * tracer.lampRgb[3 * lamp]!;
  found.g = L * tracer.lampRgb[3 * lamp + 1]!;
  found.b = L * tracer.lampRgb[3 * lamp + 2]!;
  return true;
}

/** Roughly the solid angle of each scattering sheet from x. */
function weighSheets(tracer: Tracer, px: number, py: number, pz: number): number {
  const { scatterers } = tracer;
  if (sheetWeights.length < scatterers.length) sheetWeights = new Float64Array(2 * scatterers.length);
  let total = 0;
  for (let i = 0; i < scatterers.length; i++) {
    const { placement, area_m2 } = scatterers[i]!;
    const [x, y, z] = placement.origin_m;
    const d2 = (x - px) ** 2 + (y - py) ** 2 + (z - pz) ** 2;
    sheetWeights[i] = area_m2 / (d2 + area_m2);
    total += sheetWeights[i]!;
  }
  return total;
}
