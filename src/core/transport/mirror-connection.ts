import { nearestHit, transmittance } from '../geometry/ray-query.ts';
import { newHit } from '../geometry/ray-shape.ts';
import { hazeTransmittance } from '../haze/transmittance.ts';
import { nextRandom, type RandomState } from '../math/random.ts';
import { evaluateSurface } from '../surfaces/evaluate.ts';
import { conductorReflectance, dielectricReflectance } from '../surfaces/fresnel.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import {
  type Arrival,
  arrivalWeight,
  type Connection,
  chosenByWeight,
  type PathDensity,
} from './connection.ts';
import { choosePoint, emitted_cd, newLampSight, seePoint } from './lamp-sight.ts';
import { clearance_m } from './source-sample.ts';
import type { MirrorFace, MirrorPair, Tracer } from './tracer.ts';
import { newUnfolding, unfold, unfoldedDensity } from './unfolding.ts';

/**
 * Light that a flat glossy face throws at a point x. With a perfect mirror it would come from the lamp unfolded through
 * the plane, by way of q₀; roughness spreads it over the face around q₀. So the face is integrated over:
 *
 *   E = ∫ f(q)·cos θ_i·E_lamp(q)·cos θ_o/d₂² dA
 *
 * with q drawn as the lobe is wide (`unfolding.ts`): what is left of the integrand is nearly constant, F·I/(d₁ + d₂)² for a
 * mirror. A path that happens to meet the face finds the same light; the two are weighed by the balance heuristic
 * (Veach 1997) in the density of directions at x, so wide lobes are left to the paths and narrow ones to this.
 */
let weights = new Float64Array(64);
const sight = newLampSight();
const hit = newHit();
const glossy = new Float64Array(3);
const unfolded = newUnfolding();

/** Beyond so many lobe widths a face gets less than a thousandth of the light. */
const WIDTHS = 30;
/** How far off the face its own presence is probed. */
const PROBE_m = 1e-4;

/** One estimate of all lamp light thrown by flat glossy faces at x; false when it is nothing. */
export function connectMirror(
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
  const { mirrors, model } = tracer;
  const count = mirrors.length;
  if (weights.length < count) weights = new Float64Array(2 * count);
  const total = weighPairs(tracer, px, py, pz, nx, ny, nz, arrival);
  const chosen = chosenByWeight(weights, count, total, nextRandom(random));
  if (chosen < 0) return false;
  const { face, lamp: lampIndex } = mirrors[chosen]!;
  const emitter = tracer.emitters[lampIndex]!;
  const { centre_m: c, u, v, optics } = face;
  const { alpha } = optics;

  const u1 = nextRandom(random);
  const u2 = nextRandom(random);
  const slope = alpha * lobeRadius(nextRandom(random));
  const turn = 2 * Math.PI * nextRandom(random);
  choosePoint(emitter, u1, u2, sight);
  if (!unfold(face, px, py, pz, sight.sx, sight.sy, sight.sz, unfolded)) return false;
  const { side, eu, ev, cosine, curve } = unfolded;
  const reach = (2 * slope) / curve;
  const along = (reach * Math.cos(turn)) / cosine;
  const across = reach * Math.sin(turn) * cosine;
  const qu = unfolded.qu + along * eu - across * ev;
  const qv = unfolded.qv + along * ev + across * eu;
  if (Math.abs(qu) > face.halfU_m || Math.abs(qv) > face.halfV_m) return false;

  const [mx, my, mz] = [side * face.n[0], side * face.n[1], side * face.n[2]];
  const qx = c[0] + qu * u[0] + qv * v[0];
  const qy = c[1] + qu * u[1] + qv * v[1];
  const qz = c[2] + qu * u[2] + qv * v[2];
  const [dx, dy, dz] = [qx - px, qy - py, qz - pz];
  const d2 = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const [wx, wy, wz] = [dx / d2, dy / d2, dz / d2];
  if (arrival === 'surface' && wx * nx + wy * ny + wz * nz <= 0) return false;

  seePoint(emitter, model.haze, qx, qy, qz, sight);
  const cosIn = sight.wx * mx + sight.wy * my + sight.wz * mz;
  const cosOut = -(wx * mx + wy * my + wz * mz);
  if (cosIn <= 0 || cosOut <= 0 || sight.normal_lx === 0) return false;
  evaluateSurface(
    optics,
    sight.wx * u[0] + sight.wy * u[1] + sight.wz * u[2],
    sight.wx * v[0] + sight.wy * v[1] + sight.wz * v[2],
    cosIn,
    -(wx * u[0] + wy * u[1] + wz * u[2]),
    -(wx * v[0] + wy * v[1] + wz * v[2]),
    cosOut,
    'glossy',
    glossy,
  );
  if (!faceThere(tracer, face, qx, qy, qz, mx, my, mz)) return false;
  const legs = bothLegs(tracer, px, py, pz, wx, wy, wz, d2, qx, qy, qz);
  if (legs === 0) return false;

  const perArea = unfoldedDensity(unfolded, alpha, qu, qv);
  const perDirection = (perArea * d2 * d2) / cosOut;
  const balance = perDirection / (perDirection + pathDensity(wx, wy, wz));
  const E =
    (sight.normal_lx *
      cosIn *
      hazeTransmittance(model.haze, px, py, pz, wx, wy, wz, d2) *
      legs *
      balance *
      total) /
    (perDirection * weights[chosen]!);
  found.lamp = lampIndex;
  found.wx = wx;
  found.wy = wy;
  found.wz = wz;
  found.r = E * glossy[0]! * tracer.lampRgb[3 * lampIndex]!;
  found.g = E * glossy[1]! * tracer.lampRgb[3 * lampIndex + 1]!;
  found.b = E * glossy[2]! * tracer.lampRgb[3 * lampIndex + 2]!;
  return true;
}

/**
 * Density, per steradian at x, with which `connectMirror` would draw the way x → q → s, the choice of lamp and face apart:
 * 0 where it never does, so that a path which found this way knows what it is weighed against.
 */
export function mirrorConnectionDensity(
  tracer: Tracer,
  part: number,
  lamp: number,
  px: number,
  py: number,
  pz: number,
  qx: number,
  qy: number,
  qz: number,
  sx: number,
  sy: number,
  sz: number,
): number {
  for (const pair of tracer.mirrorsOf.get(part) ?? []) {
    if (pair.lamp !== lamp) continue;
    const { centre_m: c, u, v, n } = pair.face;
    const [ax, ay, az] = [qx - c[0], qy - c[1], qz - c[2]];
    if (Math.abs(ax * n[0] + ay * n[1] + az * n[2]) > 1e-4) continue;
    const { face } = pair;
    const [bx, by, bz] = [px - c[0], py - c[1], pz - c[2]];
    const au = bx * u[0] + by * u[1] + bz * u[2];
    const av = bx * v[0] + by * v[1] + bz * v[2];
    const shows = imageShows(pair, au, av, bx * n[0] + by * n[1] + bz * n[2]);
    if (!shows || !unfold(face, px, py, pz, sx, sy, sz, unfolded)) return 0;
    const [qu, qv] = [ax * u[0] + ay * u[1] + az * u[2], ax * v[0] + ay * v[1] + az * v[2]];
    const [dx, dy, dz] = [qx - px, qy - py, qz - pz];
    const d2 = dx * dx + dy * dy + dz * dz;
    const cosOut = Math.abs(dx * n[0] + dy * n[1] + dz * n[2]) / Math.sqrt(d2);
    return (unfoldedDensity(unfolded, pair.face.optics.alpha, qu, qv) * d2) / Math.max(cosOut, 1e-9);
  }
  return 0;
}

/** Radius of a GGX slope at α = 1: P(s) = 1/(π(1 + s²)²). */
function lobeRadius(r: number): number {
  return Math.sqrt(r / (1 - r));
}

/** Is there a face at q: not an opening, not a rounded corner? */
function faceThere(
  tracer: Tracer,
  face: MirrorFace,
  qx: number,
  qy: number,
  qz: number,
  mx: number,
  my: number,
  mz: number,
): boolean {
  const [x, y, z] = [qx + PROBE_m * mx, qy + PROBE_m * my, qz + PROBE_m * mz];
  return (
    nearestHit(tracer.model.geometry, x, y, z, -mx, -my, -mz, 0, 2 * PROBE_m, hit) && hit.shape === face.part
  );
}

/** What panes leave of the way from x to q and on to the lamp's point in `sight`; 0 where something stands in it. */
function bothLegs(
  { model }: Tracer,
  px: number,
  py: number,
  pz: number,
  wx: number,
  wy: number,
  wz: number,
  d2: number,
  qx: number,
  qy: number,
  qz: number,
): number {
  const { geometry, paneDirect } = model;
  const clear2 = clearance_m(d2);
  const leg2 = transmittance(geometry, px, py, pz, wx, wy, wz, clear2, d2 - clear2, paneDirect);
  if (leg2 === 0) return 0;
  const { wx: x, wy: y, wz: z, d_m } = sight;
  const clear1 = clearance_m(d_m);
  return leg2 * transmittance(geometry, qx, qy, qz, x, y, z, clear1, d_m - clear1, paneDirect);
}

/** However little a pair seems to give, it is looked at now and then: the lamp's rim may shine where its centre does not. */
const LEAST_PROMISE = 1e-3;

/**
 * What each pair would give x without roughness or shadow, by the lamp's centre, in `weights`; 0 where its image, as wide as
 * the lobe makes it, cannot show in the face from x. Returns their sum.
 */
function weighPairs(
  { mirrors, emitters, peak_cd }: Tracer,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
  arrival: Arrival,
): number {
  let total = 0;
  let face: MirrorFace | null = null;
  let height = 0;
  let au = 0;
  let av = 0;
  for (let i = 0; i < mirrors.length; i++) {
    const pair = mirrors[i]!;
    // Pairs of one face follow one another: where x stands before it is computed once.
    if (pair.face !== face) {
      face = pair.face;
      const { centre_m: c, u, v, n } = face;
      const ax = px - c[0];
      const ay = py - c[1];
      const az = pz - c[2];
      height = ax * n[0] + ay * n[1] + az * n[2];
      au = ax * u[0] + ay * u[1] + az * u[2];
      av = ax * v[0] + ay * v[1] + az * v[2];
    }
    weights[i] = 0;
    if (!imageShows(pair, au, av, height)) continue;
    const { share, whole, cosine, qu, qv } = image;
    const emitter = emitters[pair.lamp]!;
    const { centre_m: c, u, v } = face;
    const qx = c[0] + qu * u[0] + qv * v[0];
    const qy = c[1] + qu * u[1] + qv * v[1];
    const qz = c[2] + qu * u[2] + qv * v[2];
    const [ox, oy, oz] = emitter.origin_m;
    const d1 = Math.max(1e-9, (1 - share) * whole);
    const I = emitted_cd(emitter, (qx - ox) / d1, (qy - oy) / d1, (qz - oz) / d1);
    const d2 = Math.max(1e-9, share * whole);
    const cosArrival = ((qx - px) * nx + (qy - py) * ny + (qz - pz) * nz) / d2;
    const shine =
      (I + LEAST_PROMISE * emitter.gain * peak_cd[pair.lamp]!) * reflectanceAt(face.optics, cosine);
    weights[i] = (shine * Math.max(LEAST_PROMISE, arrivalWeight(arrival, cosArrival))) / (whole * whole);
    total += weights[i]!;
  }
  return total;
}

/** Of the last pair whose image showed: d₂/(d₁ + d₂), d₁ + d₂, cos θ and q₀ in the face's own axes. */
const image = { share: 0, whole: 0, cosine: 0, qu: 0, qv: 0 };

/** Whether the image of a pair's lamp, as wide as the lobe makes it, may show in the face from x, at (au, av, height) before it. */
function imageShows(
  { face, lampRadius_m, lampU_m, lampV_m, lampN_m }: MirrorPair,
  au: number,
  av: number,
  height: number,
): boolean {
  const side = height > 0 ? 1 : -1;
  const heightX = side * height;
  const heightS = side * lampN_m;
  if ((side < 0 && face.oneSided) || heightX < 1e-9 || heightS < 1e-9) return false;
  const heights = heightX + heightS;
  const share = heightX / heights;
  const tu = lampU_m - au;
  const tv = lampV_m - av;
  const qu = au + share * tu;
  const qv = av + share * tv;
  const whole = Math.sqrt(tu * tu + tv * tv + heights * heights);
  const cosine = heights / whole;
  const width = 2 * face.optics.alpha * share * (1 - share) * whole;
  const margin = (WIDTHS * width + lampRadius_m) / cosine;
  if (Math.abs(qu) > face.halfU_m + margin || Math.abs(qv) > face.halfV_m + margin) return false;
  image.share = share;
  image.whole = whole;
  image.cosine = cosine;
  image.qu = qu;
  image.qv = qv;
  return true;
}

function reflectanceAt(optics: SurfaceOptics, cosine: number): number {
  if (optics.kind === 'coated') return dielectricReflectance(cosine, optics.coatIor);
  return conductorReflectance(cosine, optics.metalN[1]!, optics.metalK[1]!);
}
