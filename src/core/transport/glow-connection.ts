import { nearestHit } from '../geometry/ray-query.ts';
import { newHit } from '../geometry/ray-shape.ts';
import { hazeAlong, newHazeStretches } from '../haze/haze-region.ts';
import { nextRandom, type RandomState } from '../math/random.ts';
import type { Connection, PathDensity } from './connection.ts';
import { connectHaze } from './haze-connection.ts';
import { emitted_cd } from './lamp-sight.ts';
import { clearance_m } from './source-sample.ts';
import { newSurfacePoint, setNormal } from './surface-point.ts';
import { FAR_m, type Tracer } from './tracer.ts';

/**
 * The glow of haze round lamps as a source: airlight rises as 1/sin θ toward a lamp, and more where haze scatters forward,
 * so directions are drawn round a lamp with θ = π·u², of density
 *
 *   1/(2√(πθ)) per radian = 1/(4π·√(πθ)·sin θ) per steradian,
 *
 * which rises faster still and leaves no tail. Lamps are chosen by what they would give at x, and evenly a little.
 */
let shares = new Float64Array(16);

/** Sets out how often each lamp is chosen at x; to be called before the other two for the same x. */
export function weighGlow({ emitters, litLamps }: Tracer, px: number, py: number, pz: number): void {
  if (shares.length < litLamps.length) shares = new Float64Array(2 * litLamps.length);
  let total = 0;
  for (let i = 0; i < litLamps.length; i++) {
    const emitter = emitters[litLamps[i]!]!;
    const { origin_m } = emitter;
    const [dx, dy, dz] = [px - origin_m[0], py - origin_m[1], pz - origin_m[2]];
    const d2 = Math.max(1e-12, dx * dx + dy * dy + dz * dz);
    const d = Math.sqrt(d2);
    shares[i] = emitted_cd(emitter, dx / d, dy / d, dz / d) / d2;
    total += shares[i]!;
  }
  const even = 1 / litLamps.length;
  for (let i = 0; i < litLamps.length; i++) shares[i] = total > 0 ? 0.5 * (shares[i]! / total + even) : even;
}

export interface GlowDirection {
  x: number;
  y: number;
  z: number;
}

const around = newSurfacePoint();

/** Draws a direction at x round one of the lamps. */
export function drawGlowDirection(
  { model, litLamps }: Tracer,
  random: RandomState,
  px: number,
  py: number,
  pz: number,
  u: number,
  v: number,
  direction: GlowDirection,
): void {
  let left = nextRandom(random);
  let chosen = 0;
  while (chosen < litLamps.length - 1 && left >= shares[chosen]!) left -= shares[chosen++]!;
  const [x, y, z] = model.lamps[litLamps[chosen]!]!.frame.origin_m;
  const [dx, dy, dz] = [x - px, y - py, z - pz];
  const d = Math.max(1e-9, Math.sqrt(dx * dx + dy * dy + dz * dz));
  setNormal(around, dx / d, dy / d, dz / d);
  const theta = Math.PI * u * u;
  const s = Math.sin(theta);
  const [a, b, c] = [s * Math.cos(2 * Math.PI * v), s * Math.sin(2 * Math.PI * v), Math.cos(theta)];
  direction.x = a * around.ux + b * around.vx + c * around.nx;
  direction.y = a * around.uy + b * around.vy + c * around.ny;
  direction.z = a * around.uz + b * around.vz + c * around.nz;
}

/** Density, per steradian, with which `drawGlowDirection` draws a direction at x. */
export function glowDensity(
  { model, litLamps }: Tracer,
  px: number,
  py: number,
  pz: number,
  wx: number,
  wy: number,
  wz: number,
): number {
  let density = 0;
  for (let i = 0; i < litLamps.length; i++) {
    const [x, y, z] = model.lamps[litLamps[i]!]!.frame.origin_m;
    const [dx, dy, dz] = [x - px, y - py, z - pz];
    const [cx, cy, cz] = [wy * dz - wz * dy, wz * dx - wx * dz, wx * dy - wy * dx];
    const theta = Math.max(
      1e-9,
      Math.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), wx * dx + wy * dy + wz * dz),
    );
    density += shares[i]! / (4 * Math.PI * Math.sqrt(Math.PI * theta) * Math.max(1e-9, Math.sin(theta)));
  }
  return density;
}

const hit = newHit();
const drawn: GlowDirection = { x: 0, y: 0, z: 0 };
const along = newHazeStretches();

/**
 * One estimate of all airlight that arrives at x before anything else is met, weighed by the balance heuristic against
 * a path that happens to go the same way; false when it is nothing.
 */
export function connectGlow(
  tracer: Tracer,
  random: RandomState,
  px: number,
  py: number,
  pz: number,
  pathDensity: PathDensity,
  found: Connection,
): boolean {
  if (!tracer.model.haze || tracer.litLamps.length === 0) return false;
  weighGlow(tracer, px, py, pz);
  drawGlowDirection(tracer, random, px, py, pz, nextRandom(random), nextRandom(random), drawn);
  const { x, y, z } = drawn;
  const path = pathDensity(x, y, z);
  if (path === 0) return false;
  const density = path + glowDensity(tracer, px, py, pz, x, y, z);
  const met = nearestHit(tracer.model.geometry, px, py, pz, x, y, z, clearance_m(0), FAR_m, hit);
  hazeAlong(tracer.hazeRegions, px, py, pz, x, y, z, met ? hit.t : FAR_m, along);
  if (!connectHaze(tracer, random, px, py, pz, x, y, z, along, 1, found)) return false;
  found.wx = x;
  found.wy = y;
  found.wz = z;
  found.r /= density;
  found.g /= density;
  found.b /= density;
  return true;
}
