import { henyeyGreenstein } from '../haze/henyey-greenstein.ts';
import type { RandomState } from '../math/random.ts';
import { evaluateSurface, lobePdf } from '../surfaces/evaluate.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { newConnection } from './connection.ts';
import { connectGlow } from './glow-connection.ts';
import { gather, type LightBins, lampBin, type Sender } from './light-bins.ts';
import { connectMirror } from './mirror-connection.ts';
import { connectPane } from './pane-connection.ts';
import { newSurfacePoint, type SurfacePoint } from './surface-point.ts';
import type { Tracer } from './tracer.ts';

/**
 * What a vertex of a path gets by one stop on the way, thrown by mirrors, scattered by panes, glowing in haze, sent on along the
 * path by what is there: by haze with its phase function, by a surface with its lobes. Nothing here is made anew for each
 * vertex: the densities that connections ask for are functions of what was set out just before.
 */
const connection = newConnection();

/** The way that light must go on from a place in haze, for its phase function. */
const onHaze = { x: 0, y: 0, z: 0, anisotropy: 0 };

function phase(wx: number, wy: number, wz: number): number {
  return henyeyGreenstein(onHaze.anisotropy, wx * onHaze.x + wy * onHaze.y + wz * onHaze.z);
}

/** Lamp light that mirrors throw, panes scatter and haze glows with onto haze at q, scattered there along the path. */
export function lightOnHaze(
  tracer: Tracer,
  random: RandomState,
  qx: number,
  qy: number,
  qz: number,
  dx: number,
  dy: number,
  dz: number,
  sender: Sender,
  r: number,
  g: number,
  b: number,
  bins: LightBins,
): void {
  onHaze.x = dx;
  onHaze.y = dy;
  onHaze.z = dz;
  onHaze.anisotropy = tracer.model.haze!.anisotropy;
  for (let kind = 0; kind < 3; kind++) {
    const found =
      kind === 0
        ? connectGlow(tracer, random, qx, qy, qz, phase, connection)
        : kind === 1
          ? connectMirror(tracer, random, qx, qy, qz, 0, 1, 0, 'haze', phase, connection)
          : connectPane(tracer, random, qx, qy, qz, 0, 1, 0, 'haze', phase, connection);
    if (!found) continue;
    const p = phase(connection.wx, connection.wy, connection.wz);
    gather(bins, lampBin(connection.lamp, sender), p * r, p * g, p * b, connection);
  }
}

const reflected = new Float64Array(3);
/** A surface, and which of its lobes count, for `lobes`. */
let at = newSurfacePoint();
let surface: SurfaceOptics | null = null;
let counted: 'diffuse' | 'all' = 'all';

/** Density of the directions that a path may take from there. */
function lobes(wx: number, wy: number, wz: number): number {
  const { nx, ny, nz, ux, uy, uz, vx, vy, vz, ox, oy, oz } = at;
  const optics = surface!;
  const x = wx * ux + wy * uy + wz * uz;
  const y = wx * vx + wy * vy + wz * vz;
  const z = wx * nx + wy * ny + wz * nz;
  const base = lobePdf(optics, x, y, z, ox, oy, oz, false);
  return counted === 'diffuse' ? base : base + lobePdf(optics, x, y, z, ox, oy, oz, true);
}

/**
 * Lamp light that mirrors throw, panes scatter and haze glows with onto a surface, sent on along the path: by
 * its base alone where its own gloss is sharp, else by all of it.
 */
export function thrownAndScattered(
  tracer: Tracer,
  random: RandomState,
  point: SurfacePoint,
  optics: SurfaceOptics,
  which: 'diffuse' | 'all',
  sender: Sender,
  r: number,
  g: number,
  b: number,
  bins: LightBins,
): void {
  const { px, py, pz, nx, ny, nz, ux, uy, uz, vx, vy, vz, ox, oy, oz } = point;
  at = point;
  surface = optics;
  counted = which;
  for (let kind = 0; kind < 3; kind++) {
    const found =
      kind === 0
        ? connectMirror(tracer, random, px, py, pz, nx, ny, nz, 'surface', lobes, connection)
        : kind === 1
          ? connectPane(tracer, random, px, py, pz, nx, ny, nz, 'surface', lobes, connection)
          : connectGlow(tracer, random, px, py, pz, lobes, connection);
    if (!found) continue;
    const { lamp, wx, wy, wz, r: R, g: G, b: B } = connection;
    const z = wx * nx + wy * ny + wz * nz;
    evaluateSurface(
      optics,
      wx * ux + wy * uy + wz * uz,
      wx * vx + wy * vy + wz * vz,
      z,
      ox,
      oy,
      oz,
      which,
      reflected,
    );
    const bin = lampBin(lamp, sender);
    bins[bin]! += r * z * reflected[0]! * R;
    bins[bin + 1]! += g * z * reflected[1]! * G;
    bins[bin + 2]! += b * z * reflected[2]! * B;
  }
}
