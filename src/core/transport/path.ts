import { nearestHit } from '../geometry/ray-query.ts';
import { type Hit, newHit } from '../geometry/ray-shape.ts';
import { hazeAlong, newHazeStretches, placeInHaze_m } from '../haze/haze-region.ts';
import { henyeyGreenstein, sampleHenyeyGreenstein } from '../haze/henyey-greenstein.ts';
import { nextRandom, type RandomState } from '../math/random.ts';
import { sampleLobe, scatteredWeight } from '../surfaces/pane-lobe.ts';
import { newSurfaceSample, sampleSurface } from '../surfaces/sample.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { type Connection, newConnection } from './connection.ts';
import { glowDensity, weighGlow } from './glow-connection.ts';
import { connectHaze } from './haze-connection.ts';
import { BOUNCE, gather, HAZE, type LightBins, lampBin, type Sender, skyBin } from './light-bins.ts';
import { paneConnectionDensity, scatteredToward } from './pane-connection.ts';
import { newSeenLamp, seesLamp } from './seen-lamp.ts';
import { clearance_m } from './source-sample.ts';
import { type Gloss, lightOnSurface, type SurfaceLight, type VertexBefore } from './surface-lamps.ts';
import { arriveAt, newSurfacePoint, setNormal } from './surface-point.ts';
import { FAR_m, SHARP_MAX_ALPHA, type Tracer } from './tracer.ts';
import { lightOnHaze, thrownAndScattered } from './vertex-light.ts';

/**
 * Follows light backwards from a meter or a camera (path tracing, Kajiya 1986, with next-event estimation). Along every
 * stretch of the path
 *
 *   - haze: the airlight of all lamps over the stretch is estimated by a connection (`connectHaze`); the path itself is
 *     scattered with the chance 1 − e^(−σ_t·d), and where it is, it goes on without asking the lamps again, because the
 *     stretch before has;
 *   - surfaces: lamps (`lightOnSurface`), lamps thrown by flat glossy faces (`connectMirror`), lamps scattered by panes
 *     (`connectPane`); then a direction from the surface's own lobes;
 *   - panes: straight on, scattered or swallowed, in the shares of the pane;
 *   - nothing: the sky, above the horizon.
 *
 * Which connections were made at a vertex decides what the next one may count (`Reached`), so that every kind of path is
 * counted once. Long paths end by Russian roulette. Light is linear RGB radiance; `bins` gathers it by lamp and sender.
 */
type Reached =
  /** By a camera's ray, straight or over sharp reflections: lamps show themselves and their mirror images. */
  | 'camera'
  /** From a vertex that asked lamps, mirrors and panes. */
  | 'connected'
  /** From a reflection or from haze, which asked lamps only, or nothing. */
  | 'loose';

export interface PathStart {
  readonly ox: number;
  readonly oy: number;
  readonly oz: number;
  /** Unit direction. */
  readonly dx: number;
  readonly dy: number;
  readonly dz: number;
  /** A meter's own direct light is computed elsewhere, and so is what its mirror and pane connections find. */
  readonly from: 'camera' | 'meter';
  /** Density, per steradian, of the direction among all that the meter may take; 0 for a camera. */
  readonly density: number;
}

/** A guard, not a limit: roulette ends paths long before. */
const MAX_VERTICES = 4096;
/** Roulette starts at this vertex; from `LONG` on, even paths that lose nothing may end. */
const ROULETTE_FROM = 2;
const LONG = 8;
const LONG_SURVIVAL = 0.95;
/** Places tried for each lamp along the stretch that a camera or a meter sees itself. */
const FIRST_TRIES = 4;

const hit: Hit = newHit();
const point = newSurfacePoint();
const turning = newSurfacePoint();
const surfaceSample = newSurfaceSample();
const surfaceLight: SurfaceLight = { lamp: -1, r: 0, g: 0, b: 0 };
const connection: Connection = newConnection();
const seen = newSeenLamp();
const inHaze = newHazeStretches();
const direction = { x: 0, y: 0, z: 0 };
const before: VertexBefore = { fx: 0, fy: 0, fz: 0, density: 0 };

/** Adds the radiance that arrives along one path, times `weight`, to the bins. */
export function tracePath(
  tracer: Tracer,
  random: RandomState,
  start: PathStart,
  weight: number,
  bins: LightBins,
): void {
  const { model, extinction } = tracer;
  const { geometry } = model;
  let { ox, oy, oz, dx, dy, dz, density } = start;
  let reached: Reached = start.from === 'camera' ? 'camera' : 'connected';
  // The surface whose sharp reflection a camera's path is in.
  let mirror: SurfaceOptics | null = null;
  // Where the vertex stood that chose this direction: panes passed straight do not move it.
  let [fx, fy, fz] = [ox, oy, oz];
  // A meter's straight view of the sky is computed elsewhere.
  let straightFromMeter = start.from === 'meter';
  let firstStretch = true;
  let sender: Sender = BOUNCE;
  let [r, g, b] = [weight, weight, weight];
  // Density of the direction at a vertex that has looked for the glow of haze by itself; 0 at one that has not.
  let besideGlow = 0;

  for (let vertex = 0; vertex < MAX_VERTICES; vertex++) {
    const solid = nearestHit(geometry, ox, oy, oz, dx, dy, dz, clearance_m(0), FAR_m, hit);
    let D = solid ? hit.t : FAR_m;
    const lampSeen = reached === 'camera' && seesLamp(tracer, ox, oy, oz, dx, dy, dz, D, mirror, seen);
    if (lampSeen) D = seen.d_m;

    if (model.haze) {
      hazeAlong(tracer.hazeRegions, ox, oy, oz, dx, dy, dz, D, inHaze);
      const tries = firstStretch ? FIRST_TRIES : 1;
      if (connectHaze(tracer, random, ox, oy, oz, dx, dy, dz, inHaze, tries, connection)) {
        let share = 1;
        if (besideGlow > 0) {
          weighGlow(tracer, fx, fy, fz);
          share = besideGlow / (besideGlow + glowDensity(tracer, fx, fy, fz, dx, dy, dz));
        }
        const bin = lampBin(connection.lamp, firstStretch ? HAZE : sender);
        gather(bins, bin, share * r, share * g, share * b, connection);
      }
      besideGlow = 0;
      // Where haze scatters the path, if it does: after a length of haze of density σ_t·e^(−σ_t·s) over the chance that it does.
      const chance = -Math.expm1(-extinction * inHaze.length_m);
      const scattered = nextRandom(random) < chance;
      const s = -Math.log1p(-chance * nextRandom(random)) / extinction;
      const { albedo, anisotropy } = model.haze;
      if (chance > 0 && (scattered || firstStretch)) {
        // On its first stretch every path asks what light a scattering there would find, weighed by its chance: in thin
        // haze few paths are scattered, and those few would carry it all.
        const k = albedo * (firstStretch ? chance : 1);
        const t = placeInHaze_m(inHaze, s);
        const into = firstStretch ? HAZE : sender;
        lightOnHaze(
          tracer,
          random,
          ox + t * dx,
          oy + t * dy,
          oz + t * dz,
          dx,
          dy,
          dz,
          into,
          k * r,
          k * g,
          k * b,
          bins,
        );
      }
      if (scattered) {
        if (firstStretch) sender = HAZE;
        firstStretch = false;
        straightFromMeter = false;
        const keep = albedo * survival(vertex, Math.max(r, g, b) * albedo, weight, random);
        if (keep === 0) return;
        r *= keep;
        g *= keep;
        b *= keep;
        const t = placeInHaze_m(inHaze, s);
        ox += t * dx;
        oy += t * dy;
        oz += t * dz;
        const mu = sampleHenyeyGreenstein(anisotropy, nextRandom(random));
        turn(dx, dy, dz, mu, nextRandom(random));
        ({ x: dx, y: dy, z: dz } = direction);
        [fx, fy, fz] = [ox, oy, oz];
        density = henyeyGreenstein(anisotropy, mu);
        besideGlow = density;
        reached = 'connected';
        continue;
      }
    }

    if (lampSeen) {
      gather(bins, lampBin(seen.lamp, sender), r, g, b, seen);
      return;
    }
    if (!solid) {
      if (dy > 0 && !straightFromMeter) {
        const L = tracer.skyLuminance;
        const bin = skyBin(model.lamps.length);
        bins[bin]! += r * L * tracer.skyRgb[0]!;
        bins[bin + 1]! += g * L * tracer.skyRgb[1]!;
        bins[bin + 2]! += b * L * tracer.skyRgb[2]!;
      }
      return;
    }

    ox += D * dx;
    oy += D * dy;
    oz += D * dz;
    const part = hit.shape;
    const pane = geometry.panes[part]!;
    if (pane >= 0) {
      const { direct, scattered } = model.panes[pane]!;
      const choice = nextRandom(random);
      if (choice < direct) continue;
      if (choice >= direct + scattered) return;
      const { nx, ny, nz } = hit;
      const cosOut = Math.abs(dx * nx + dy * ny + dz * nz);
      let share = 1 / scattered;
      if (reached === 'connected') {
        const d = Math.hypot(ox - fx, oy - fy, oz - fz);
        share *= density / (density + paneConnectionDensity(tracer, fx, fy, fz, part, d, cosOut));
      }
      if (scatteredToward(tracer, random, pane, ox, oy, oz, -dx, -dy, -dz, nx, ny, nz, connection)) {
        gather(bins, lampBin(connection.lamp, sender), r * share, g * share, b * share, connection);
      }
      firstStretch = false;
      straightFromMeter = false;
      const lobe = tracer.paneLobes[pane]!;
      const before = dx * nx + dy * ny + dz * nz;
      turn(dx, dy, dz, sampleLobe(lobe, nextRandom(random)), nextRandom(random));
      ({ x: dx, y: dy, z: dz } = direction);
      const after = dx * nx + dy * ny + dz * nz;
      // The part of the lobe that would come back out of the pane is lost in it.
      if (after * before <= 0) return;
      const passed = scatteredWeight(lobe, Math.abs(after), cosOut);
      const keep = passed * survival(vertex, passed * Math.max(r, g, b), weight, random);
      if (keep === 0) return;
      r *= keep;
      g *= keep;
      b *= keep;
      reached = 'loose';
      continue;
    }

    firstStretch = false;
    straightFromMeter = false;
    const surface = geometry.materials[part]!;
    const { optics } = model.surfaces[surface]!;
    arriveAt(point, ox, oy, oz, dx, dy, dz, hit.nx, hit.ny, hit.nz);
    before.fx = fx;
    before.fy = fy;
    before.fz = fz;
    before.density = density;
    if (lightOnSurface(tracer, random, point, surface, part, GLOSS[reached], before, surfaceLight)) {
      gather(bins, lampBin(surfaceLight.lamp, sender), r, g, b, surfaceLight);
    }
    const sharp = optics.glossy && optics.alpha < SHARP_MAX_ALPHA;
    if (!sharp || optics.baseLuminance > 0) {
      thrownAndScattered(tracer, random, point, optics, sharp ? 'diffuse' : 'all', sender, r, g, b, bins);
    }

    const { ox: lx, oy: ly, oz: lz } = point;
    const [u, v, w] = [nextRandom(random), nextRandom(random), nextRandom(random)];
    if (!sampleSurface(optics, lx, ly, lz, u, v, w, sharp, surfaceSample)) return;
    r *= surfaceSample.r;
    g *= surfaceSample.g;
    b *= surfaceSample.b;
    const keep = survival(vertex, Math.max(r, g, b), weight, random);
    if (keep === 0) return;
    r *= keep;
    g *= keep;
    b *= keep;
    const { x, y, z } = surfaceSample;
    dx = x * point.ux + y * point.vx + z * point.nx;
    dy = x * point.uy + y * point.vy + z * point.ny;
    dz = x * point.uz + y * point.vz + z * point.nz;
    [fx, fy, fz] = [ox, oy, oz];
    density = surfaceSample.pdf;
    const throughSharp = sharp && surfaceSample.glossy;
    besideGlow = throughSharp ? 0 : density;
    if (!throughSharp) reached = 'connected';
    else if (reached === 'camera') mirror = optics;
    else reached = 'loose';
  }
}

const GLOSS: Readonly<Record<Reached, Gloss>> = { camera: 'sharp', connected: 'thrown', loose: 'blurred' };

/** Turns a unit direction by the angle of cosine `mu`, at an even chance round it, into `direction`. */
function turn(dx: number, dy: number, dz: number, mu: number, u: number): void {
  setNormal(turning, dx, dy, dz);
  const s = Math.sqrt(Math.max(0, 1 - mu * mu));
  const [x, y] = [s * Math.cos(2 * Math.PI * u), s * Math.sin(2 * Math.PI * u)];
  direction.x = x * turning.ux + y * turning.vx + mu * turning.nx;
  direction.y = x * turning.uy + y * turning.vy + mu * turning.ny;
  direction.z = x * turning.uz + y * turning.vz + mu * turning.nz;
}

/** Russian roulette: 0 where the path ends, else what makes up for those that did. */
function survival(vertex: number, throughput: number, weight: number, random: RandomState): number {
  if (throughput === 0) return 0;
  if (vertex < ROULETTE_FROM) return 1;
  const chance = Math.min(vertex < LONG ? 1 : LONG_SURVIVAL, throughput / weight);
  if (chance >= 1) return 1;
  return nextRandom(random) < chance ? 1 / chance : 0;
}
