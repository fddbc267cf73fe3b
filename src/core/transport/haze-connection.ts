import { transmittance } from '../geometry/ray-query.ts';
import { type EquiAngular, equiAngularPdf, sampleEquiAngular } from '../haze/equi-angular.ts';
import { henyeyGreenstein } from '../haze/henyey-greenstein.ts';
import { type Stretch, withinCone } from '../lamps/lit-cone.ts';
import { nextRandom, type RandomState } from '../math/random.ts';
import { type Connection, chosenByWeight } from './connection.ts';
import { type LampSight, newLampSight, seeLamp } from './lamp-sight.ts';
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

/** Draws a distance into `along.t` and returns its density, over all three ways in which it might have been drawn. */
function drawDistance(
  tracer: Tracer,
  random: RandomState,
  lamp: number,
  foot: number,
  offset: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
): number {
  const brightCone = tracer.brightCones[lamp]!;
  const litCone = tracer.litCones[lamp]!;
  const inBright =
    brightCone && withinCone(brightCone, ox, oy, oz, dx, dy, dz, D, bright) ? BRIGHT_CHANCE : 0;
  const inLit = litCone && withinCone(litCone, ox, oy, oz, dx, dy, dz, D, lit) ? LIT_CHANCE : 0;
  const way = nextRandom(random);
  const [from, to] =
    way < inBright ? [bright.from, bright.to] : way < inBright + inLit ? [lit.from, lit.to] : [0, D];
  sampleEquiAngular(foot, offset, from, to, nextRandom(random), along);
  const { t } = along;
  let pdf = (1 - inBright - inLit) * equiAngularPdf(foot, offset, 0, D, t);
  if (inBright > 0) pdf += inBright * equiAngularPdf(foot, offset, bright.from, bright.to, t);
  if (inLit > 0) pdf += inLit * equiAngularPdf(foot, offset, lit.from, lit.to, t);
  return pdf;
}

let tried = newLampSight();

/** What one lamp would give from one place along the ray, drawn at random, over the density of drawing it. */
function tryPlace(
  tracer: Tracer,
  random: RandomState,
  index: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
  sight: LampSight,
): number {
  const { extinction, model } = tracer;
  const { albedo, anisotropy } = model.haze!;
  const lamp = model.lamps[index]!;
  const u = nextRandom(random);
  const v = nextRandom(random);
  seeLamp(lamp, 0, ox, oy, oz, u, v, sight);
  const foot = sight.d_m * (sight.wx * dx + sight.wy * dy + sight.wz * dz);
  const offset = Math.sqrt(Math.max(0, sight.d_m * sight.d_m - foot * foot));
  const pdf = drawDistance(tracer, random, index, foot, offset, ox, oy, oz, dx, dy, dz, D);
  const { t } = along;
  seeLamp(lamp, extinction, ox + t * dx, oy + t * dy, oz + t * dz, u, v, sight);
  const p = henyeyGreenstein(anisotropy, sight.wx * dx + sight.wy * dy + sight.wz * dz);
  return (albedo * extinction * p * sight.normal_lx * Math.exp(-extinction * t)) / pdf;
}

/** One estimate of the airlight of all lamps over 0..D, linear RGB in `found` (cd/m²), with so many places tried for each lamp; false when it is nothing. */
export function connectHaze(
  tracer: Tracer,
  random: RandomState,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  D: number,
  tries: number,
  found: Connection,
): boolean {
  const { model, litLamps } = tracer;
  if (!model.haze || litLamps.length === 0) return false;
  if (weights.length < litLamps.length) {
    weights = new Float64Array(2 * litLamps.length);
    distances = new Float64Array(2 * litLamps.length);
  }
  let total = 0;
  for (let i = 0; i < litLamps.length; i++) {
    sights[i] ??= newLampSight();
    const lamp = litLamps[i]!;
    let sum = 0;
    for (let k = 0; k < tries; k++) {
      const weight = tryPlace(tracer, random, lamp, ox, oy, oz, dx, dy, dz, D, tried) / tries;
      sum += weight;
      // Of several tries one is kept, with a chance by its weight. Every try draws as many numbers as any other, so that
      // a number's place in the sequence means the same in all paths.
      if (nextRandom(random) * sum >= weight) continue;
      distances[i] = along.t;
      [sights[i], tried] = [tried, sights[i]!];
    }
    weights[i] = sum;
    total += sum;
  }
  const chosen = chosenByWeight(weights, litLamps.length, total, nextRandom(random));
  if (chosen < 0) return false;
  const t = distances[chosen]!;
  const { wx, wy, wz, d_m } = sights[chosen]!;
  const clear = clearance_m(d_m);
  const leg = transmittance(
    model.geometry,
    ox + t * dx,
    oy + t * dy,
    oz + t * dz,
    wx,
    wy,
    wz,
    0,
    d_m - clear,
    model.paneDirect,
  );
  if (leg === 0) return false;
  const lamp = litLamps[chosen]!;
  const L = total * leg;
  found.lamp = lamp;
  found.r = L * tracer.lampRgb[3 * lamp]!;
  found.g = L * tracer.lampRgb[3 * lamp + 1]!;
  found.b = L * tracer.lampRgb[3 * lamp + 2]!;
  return true;
}
