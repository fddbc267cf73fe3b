import { transmittance } from '../geometry/ray-query.ts';
import { faceRadius_m } from '../lamps/face.ts';
import { nextRandom, type RandomState } from '../math/random.ts';
import { baseShare, evaluateSurface } from '../surfaces/evaluate.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { chosenByWeight } from './connection.ts';
import { type LampSight, newLampSight, seeLamp } from './lamp-sight.ts';
import { luminance } from './light-bins.ts';
import { mirrorConnectionDensity } from './mirror-connection.ts';
import { clearance_m } from './source-sample.ts';
import type { SurfacePoint } from './surface-point.ts';
import { SHARP_MAX_ALPHA, type Tracer } from './tracer.ts';

/**
 * How the glossy part of a surface answers lamps when a path arrives:
 * `sharp`: as it is, lamps that fill the lobe excepted: the path's own reflected ray finds those (`lobeFindsLamp`);
 * `blurred`: with its roughness raised, so that a narrow lobe on a curved or small face cannot turn into a rare, huge
 * sample; the light thrown is the same, its edges are softer;
 * `thrown`: the vertex before has looked for this light by mirror connections, and the two are weighed by the balance
 * heuristic; where it could not, blurred.
 */
export type Gloss = 'sharp' | 'blurred' | 'thrown';

/** Where the vertex before stood and how densely it chose this direction, for `thrown` light. */
export interface VertexBefore {
  fx: number;
  fy: number;
  fz: number;
  density: number;
}

/**
 * Whether the path's own reflected ray, and not a shadow ray, finds this lamp in this surface: when it is a mirror whose
 * lobe is narrower than the lamp looks. Both sides of the tracer ask this, so that no light is counted twice or left out.
 */
export function lobeFindsLamp(optics: SurfaceOptics, lampRadius_m: number, distance_m: number): boolean {
  return optics.alpha < SHARP_MAX_ALPHA && optics.alpha * distance_m < lampRadius_m;
}

let lampWeights = new Float64Array(16);
let values = new Float64Array(48);
const sights: LampSight[] = [];
const glossy = new Float64Array(3);

/** What `lightOnSurface` found: a lamp, and its light sent on along the path as linear RGB radiance (cd/m²). */
export interface SurfaceLight {
  lamp: number;
  r: number;
  g: number;
  b: number;
}

/**
 * Lamp light at a point of a surface, reflected along the path: all lamps weighed by what they would give with nothing in
 * the way, one kept and its shadow ray traced (resampled importance, Talbot 2005). The diffuse part takes the colour
 * integrated spectrally for this lamp on this surface. False when it is nothing.
 */
export function lightOnSurface(
  tracer: Tracer,
  random: RandomState,
  point: SurfacePoint,
  surface: number,
  part: number,
  gloss: Gloss,
  before: VertexBefore,
  found: SurfaceLight,
): boolean {
  const { model, litLamps, lampRgb } = tracer;
  const count = litLamps.length;
  if (lampWeights.length < count) {
    lampWeights = new Float64Array(2 * count);
    values = new Float64Array(6 * count);
  }
  const { optics, blurred } = model.surfaces[surface]!;
  let total = 0;
  for (let i = 0; i < count; i++) {
    sights[i] ??= newLampSight();
    const sight = sights[i]!;
    const l = litLamps[i]!;
    const lamp = model.lamps[l]!;
    lampWeights[i] = 0;
    seeLamp(
      tracer.emitters[l]!,
      model.haze,
      point.px,
      point.py,
      point.pz,
      nextRandom(random),
      nextRandom(random),
      sight,
    );
    const iz = sight.wx * point.nx + sight.wy * point.ny + sight.wz * point.nz;
    if (iz <= 0 || sight.normal_lx === 0) continue;
    const arriving = sight.normal_lx * iz;
    const pair = 3 * (l * model.surfaces.length + surface);
    const base = (baseShare(optics, iz, point.oz) / Math.PI) * arriving;
    let r = base * model.lampOnSurface_RGB[pair]!;
    let g = base * model.lampOnSurface_RGB[pair + 1]!;
    let b = base * model.lampOnSurface_RGB[pair + 2]!;
    if (optics.glossy && !(gloss === 'sharp' && lobeFindsLamp(optics, faceRadius_m(lamp.face), sight.d_m))) {
      const ix = sight.wx * point.ux + sight.wy * point.uy + sight.wz * point.uz;
      const iy = sight.wx * point.vx + sight.wy * point.vy + sight.wz * point.vz;
      const other = gloss === 'thrown' ? thrownDensity(tracer, point, part, l, sight, before) : 0;
      const asItIs = gloss === 'sharp' || other > 0;
      // A flat mirror behind a sharp reflection: neither a connection nor chance finds the lamp in it; it is left out.
      const lost = gloss === 'blurred' && optics.alpha < SHARP_MAX_ALPHA && tracer.mirrorsOf.has(part);
      evaluateSurface(asItIs ? optics : blurred, ix, iy, iz, point.ox, point.oy, point.oz, 'glossy', glossy);
      const k = lost ? 0 : arriving * (other > 0 ? before.density / (before.density + other) : 1);
      r += k * glossy[0]! * lampRgb[3 * l]!;
      g += k * glossy[1]! * lampRgb[3 * l + 1]!;
      b += k * glossy[2]! * lampRgb[3 * l + 2]!;
    }
    values[3 * i] = r;
    values[3 * i + 1] = g;
    values[3 * i + 2] = b;
    // Light of a saturated gel may lie outside the RGB gamut; what counts for choosing is how much there is.
    lampWeights[i] = Math.abs(luminance(r, g, b)) + 1e-3 * (Math.abs(r) + Math.abs(g) + Math.abs(b));
    total += lampWeights[i]!;
  }
  const chosen = chosenByWeight(lampWeights, count, total, nextRandom(random));
  if (chosen < 0) return false;
  const { wx, wy, wz, d_m } = sights[chosen]!;
  const clear = clearance_m(d_m);
  const leg = transmittance(
    model.geometry,
    point.px,
    point.py,
    point.pz,
    wx,
    wy,
    wz,
    clear,
    d_m - clear,
    model.paneDirect,
  );
  if (leg === 0) return false;
  const k = (leg * total) / lampWeights[chosen]!;
  found.lamp = litLamps[chosen]!;
  found.r = k * values[3 * chosen]!;
  found.g = k * values[3 * chosen + 1]!;
  found.b = k * values[3 * chosen + 2]!;
  return true;
}

function thrownDensity(
  tracer: Tracer,
  { px, py, pz }: SurfacePoint,
  part: number,
  lamp: number,
  { wx, wy, wz, d_m }: LampSight,
  { fx, fy, fz }: VertexBefore,
): number {
  const [sx, sy, sz] = [px + d_m * wx, py + d_m * wy, pz + d_m * wz];
  return mirrorConnectionDensity(tracer, part, lamp, fx, fy, fz, px, py, pz, sx, sy, sz);
}
