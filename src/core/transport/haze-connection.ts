import { transmittance } from '../geometry/ray-query.ts';
import { type EquiAngular, equiAngularPdf, sampleEquiAngular } from '../haze/equi-angular.ts';
import { type HazeStretches, hazedUpTo_m, isHazed } from '../haze/haze-region.ts';
import { henyeyGreenstein } from '../haze/henyey-greenstein.ts';
import { type Stretch, withinCone } from '../lamps/lit-cone.ts';
import { nextRandom, type RandomState } from '../math/random.ts';
import { type Connection, chosenByWeight } from './connection.ts';
import { choosePoint, type LampSight, newLampSight, seePoint } from './lamp-sight.ts';
import { clearance_m } from './source-sample.ts';
import type { Tracer } from './tracer.ts';

/**
 * Light of lamps that haze scatters once into a stretch of a ray (airlight):
 *
 *   L = ∫₀^D σ_s·p(θ)·E_lamp(t)·e^(−σ_t·t) dt
 *
 * For every lamp a point of its face and an equi-angular distance are drawn; one lamp of all is kept by what it would give
 * (resampled importance, Talbot 2005), and its shadow ray is traced.
 */
let weights = new Float64Array(16);
let distances = new Float64Array(16);
const sights: LampSight[] = [];
const along: EquiAngular = { t: 0, pdf: 0 };

const bright: Stretch = { from: 0, to: 0 };
const lit: Stretch = { from: 0, to: 0 };
/** How often a distance is drawn from where the lamp is bright, and from where it is lit at all; else from anywhere. */
const BRIGHT_CHANCE = 0.6;
const LIT_CHANCE = 0.3;

/** How a lamp's cones cut a stretch: the chance of drawing a distance from each, 0 where they miss it. */
let inBright = 0;
let inLit = 0;

function cutByCones(
  tracer: Tracer,
  lamp: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  from: number,
  to: number,
): void {
  const brightCone = tracer.brightCones[lamp]!;
  const litCone = tracer.litCones[lamp]!;
  const meetsBright = brightCone !== null && withinCone(brightCone, ox, oy, oz, dx, dy, dz, to, bright);
  const meetsLit = litCone !== null && withinCone(litCone, ox, oy, oz, dx, dy, dz, to, lit);
  bright.from = Math.max(from, bright.from);
  lit.from = Math.max(from, lit.from);
  inBright = meetsBright && bright.to > bright.from ? BRIGHT_CHANCE : 0;
  inLit = meetsLit && lit.to > lit.from ? LIT_CHANCE : 0;
}

/** Draws a distance into `along.t` and returns its density, over all three ways in which it might have been drawn. */
function drawDistance(random: RandomState, foot: number, offset: number, from: number, to: number): number {
  const way = nextRandom(random);
  const stretch = way < inBright ? bright : way < inBright + inLit ? lit : null;
  sampleEquiAngular(foot, offset, stretch?.from ?? from, stretch?.to ?? to, nextRandom(random), along);
  const { t } = along;
  let pdf = (1 - inBright - inLit) * equiAngularPdf(foot, offset, from, to, t);
  if (inBright > 0) pdf += inBright * equiAngularPdf(foot, offset, bright.from, bright.to, t);
  if (inLit > 0) pdf += inLit * equiAngularPdf(foot, offset, lit.from, lit.to, t);
  return pdf;
}

let tried = newLampSight();

/** What one lamp would give from one place along the ray, drawn at random, over the density of drawing it. */
function tryPlace(
  tracer: Tracer,
  random: RandomState,
  lamp: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  stretches: HazeStretches,
  sight: LampSight,
): number {
  const { extinction, model } = tracer;
  const emitter = tracer.emitters[lamp]!;
  choosePoint(emitter, nextRandom(random), nextRandom(random), sight);
  const { sx, sy, sz } = sight;
  const foot = (sx - ox) * dx + (sy - oy) * dy + (sz - oz) * dz;
  const [hx, hy, hz] = [sx - ox - foot * dx, sy - oy - foot * dy, sz - oz - foot * dz];
  const offset = Math.sqrt(hx * hx + hy * hy + hz * hz);
  const { count, ends } = stretches;
  const pdf = drawDistance(random, foot, offset, ends[0]!, ends[2 * count - 1]!);
  const { t } = along;
  if (count > 1 && !isHazed(stretches, t)) return 0;
  seePoint(emitter, model.haze, ox + t * dx, oy + t * dy, oz + t * dz, sight);
  if (sight.normal_lx === 0) return 0;
  const { albedo, anisotropy } = model.haze!;
  const p = henyeyGreenstein(anisotropy, sight.wx * dx + sight.wy * dy + sight.wz * dz);
  const passed = Math.exp(-extinction * hazedUpTo_m(stretches, t));
  return (albedo * extinction * p * sight.normal_lx * passed) / pdf;
}

/**
 * One estimate of the airlight of all lamps over the hazed stretches of a ray, linear RGB in `found` (cd/m²), with so many
 * places tried for each lamp; false when it is nothing.
 */
export function connectHaze(
  tracer: Tracer,
  random: RandomState,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  stretches: HazeStretches,
  tries: number,
  found: Connection,
): boolean {
  const { model, litLamps, lampRgb } = tracer;
  const { count, ends } = stretches;
  if (count === 0 || litLamps.length === 0) return false;
  if (weights.length < litLamps.length) {
    weights = new Float64Array(2 * litLamps.length);
    distances = new Float64Array(2 * litLamps.length);
  }
  let total = 0;
  for (let i = 0; i < litLamps.length; i++) {
    sights[i] ??= newLampSight();
    const lamp = litLamps[i]!;
    cutByCones(tracer, lamp, ox, oy, oz, dx, dy, dz, ends[0]!, ends[2 * count - 1]!);
    let sum = 0;
    for (let k = 0; k < tries; k++) {
      const weight = tryPlace(tracer, random, lamp, ox, oy, oz, dx, dy, dz, stretches, tried) / tries;
      sum += weight;
      // Of several tries one is kept, with a chance by its weight. Every try draws as many numbers as any other, so that
      // a number's place in the sequence means the same in all paths.
      if (nextRandom(random) * sum >= weight) continue;
      distances[i] = along.t;
      const kept = tried;
      tried = sights[i]!;
      sights[i] = kept;
    }
    weights[i] = sum;
    total += sum;
  }
  const chosen = chosenByWeight(weights, litLamps.length, total, nextRandom(random));
  if (chosen < 0) return false;
  const t = distances[chosen]!;
  const { wx, wy, wz, d_m } = sights[chosen]!;
  const [x, y, z] = [ox + t * dx, oy + t * dy, oz + t * dz];
  const end = d_m - clearance_m(d_m);
  const L = total * transmittance(model.geometry, x, y, z, wx, wy, wz, 0, end, model.paneDirect);
  if (L === 0) return false;
  const lamp = litLamps[chosen]!;
  found.lamp = lamp;
  found.r = L * lampRgb[3 * lamp]!;
  found.g = L * lampRgb[3 * lamp + 1]!;
  found.b = L * lampRgb[3 * lamp + 2]!;
  return true;
}
