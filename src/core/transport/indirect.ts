import { confidence95 } from '../math/confidence.ts';
import { kroneckerU, kroneckerV, mixed32 } from '../math/kronecker.ts';
import { nextRandom, type RandomState, seededRandom, startPath } from '../math/random.ts';
import { newConnection } from './connection.ts';
import { drawGlowDirection, type GlowDirection, glowDensity, weighGlow } from './glow-connection.ts';
import { BOUNCE, type LightBins, lampBin, luminance, newLightBins } from './light-bins.ts';
import { connectMirror } from './mirror-connection.ts';
import { connectPane } from './pane-connection.ts';
import { tracePath } from './path.ts';
import { domeResponse, flatResponse, type Receptor } from './receptor.ts';
import type { MeterPoint } from './source-sample.ts';
import { newSurfacePoint, setNormal } from './surface-point.ts';
import type { Tracer } from './tracer.ts';

/**
 * All light that reaches a meter other than straight from lamp or sky, by random paths. Directions are drawn half by what
 * a dome makes of them, (1 + cos θ)/4π, and, where there is haze, half round the lamps, because haze glows there.
 * Estimates are made in BATCHES independent batches; their spread is the error. Seeded: the same question gets the same
 * digits.
 */
export interface Indirect {
  readonly tracer: Tracer;
  readonly meter: MeterPoint;
  /** Paths per batch so far. */
  paths: number;
  /** Sums over all paths, linear RGB times the receptor's response (lx). */
  readonly flat: LightBins;
  readonly dome: LightBins;
  /** Luminous sums by batch. */
  readonly flatByBatch: Float64Array;
  readonly domeByBatch: Float64Array;
  readonly randoms: readonly RandomState[];
  /** Of the two-dimensional sequence that directions are drawn from. */
  readonly shifts: Uint32Array;
}

export const BATCHES = 16;

export function newIndirect(tracer: Tracer, meter: MeterPoint, seed: number): Indirect {
  const lamps = tracer.model.lamps.length;
  return {
    tracer,
    meter,
    paths: 0,
    flat: newLightBins(lamps),
    dome: newLightBins(lamps),
    flatByBatch: new Float64Array(BATCHES),
    domeByBatch: new Float64Array(BATCHES),
    randoms: Array.from({ length: BATCHES }, (_, batch) => seededRandom(mixed32(seed * BATCHES + batch))),
    shifts: Uint32Array.from({ length: 2 * BATCHES }, (_, i) => mixed32(seed * 2 * BATCHES + i + 7)),
  };
}

const connection = newConnection();
const around = newSurfacePoint();

/** Takes every batch up to `paths` paths. */
export function refineIndirect(indirect: Indirect, paths: number): void {
  const { tracer, meter, flat, dome, flatByBatch, domeByBatch } = indirect;
  const [px, py, pz] = meter.position_m;
  const [nx, ny, nz] = meter.facing;
  const bins = newLightBins(tracer.model.lamps.length);
  // Connections and paths weigh lamps at their own vertices, so it is done anew for the meter each time.
  const density = (wx: number, wy: number, wz: number) => {
    if (glows(tracer)) weighGlow(tracer, px, py, pz);
    return directionDensity(tracer, meter, wx, wy, wz);
  };

  for (let batch = 0; batch < BATCHES; batch++) {
    const random = indirect.randoms[batch]!;
    const take = (from: LightBins, cosine: number, weight: number) => {
      const [toFlat, toDome] = [weight * flatResponse(cosine), weight * domeResponse(cosine)];
      for (let i = 0; i < from.length; i += 3) {
        const Y = luminance(from[i]!, from[i + 1]!, from[i + 2]!);
        if (Y === 0) continue;
        for (let c = i; c < i + 3; c++) {
          flat[c]! += toFlat * from[c]!;
          dome[c]! += toDome * from[c]!;
        }
        flatByBatch[batch]! += toFlat * Y;
        domeByBatch[batch]! += toDome * Y;
      }
    };
    const takeConnection = () => {
      bins.fill(0);
      bins.set([connection.r, connection.g, connection.b], lampBin(connection.lamp, BOUNCE));
      take(bins, connection.wx * nx + connection.wy * ny + connection.wz * nz, 1);
    };
    for (let i = indirect.paths; i < paths; i++) {
      startPath(random, i);
      const u = kroneckerU(i, indirect.shifts[2 * batch]!);
      const v = kroneckerV(i, indirect.shifts[2 * batch + 1]!);
      if (glows(tracer)) weighGlow(tracer, px, py, pz);
      drawDirection(tracer, meter, u, v, random);
      const { x: dx, y: dy, z: dz } = drawn;
      const pdf = density(dx, dy, dz);
      bins.fill(0);
      tracePath(tracer, random, { ox: px, oy: py, oz: pz, dx, dy, dz, from: 'meter', density: pdf }, 1, bins);
      take(bins, dx * nx + dy * ny + dz * nz, 1 / pdf);
      if (connectMirror(tracer, random, px, py, pz, nx, ny, nz, 'meter', density, connection))
        takeConnection();
      if (connectPane(tracer, random, px, py, pz, nx, ny, nz, 'meter', density, connection)) takeConnection();
    }
  }
  indirect.paths = Math.max(indirect.paths, paths);
}

/** Half-width of the 95 % interval of all indirect light, lx; unbounded before the first path. */
export function indirectError_lx(indirect: Indirect, receptor: Receptor): number {
  if (indirect.paths === 0) return Number.POSITIVE_INFINITY;
  return confidence95(receptor === 'flat' ? indirect.flatByBatch : indirect.domeByBatch) / indirect.paths;
}

/** Mean light in a bin, linear RGB (lx). */
export function indirectMean(indirect: Indirect, receptor: Receptor, bin: number): [number, number, number] {
  const bins = receptor === 'flat' ? indirect.flat : indirect.dome;
  const n = BATCHES * Math.max(1, indirect.paths);
  return [bins[bin]! / n, bins[bin + 1]! / n, bins[bin + 2]! / n];
}

const drawn: GlowDirection = { x: 0, y: 0, z: 0 };

/** Half by the dome, half round the lamps where there is haze to glow. */
function drawDirection(tracer: Tracer, meter: MeterPoint, u: number, v: number, random: RandomState): void {
  if (glows(tracer) && nextRandom(random) < 0.5) {
    drawGlowDirection(tracer, random, ...meter.position_m, u, v, drawn);
    return;
  }
  setNormal(around, ...meter.facing);
  const mu = 2 * Math.sqrt(u) - 1;
  const s = Math.sqrt(Math.max(0, 1 - mu * mu));
  const [x, y] = [s * Math.cos(2 * Math.PI * v), s * Math.sin(2 * Math.PI * v)];
  drawn.x = x * around.ux + y * around.vx + mu * around.nx;
  drawn.y = x * around.uy + y * around.vy + mu * around.ny;
  drawn.z = x * around.uz + y * around.vz + mu * around.nz;
}

function directionDensity(tracer: Tracer, meter: MeterPoint, wx: number, wy: number, wz: number): number {
  const [nx, ny, nz] = meter.facing;
  const dome = (1 + wx * nx + wy * ny + wz * nz) / (4 * Math.PI);
  return glows(tracer) ? 0.5 * (dome + glowDensity(tracer, ...meter.position_m, wx, wy, wz)) : dome;
}

function glows({ model, litLamps }: Tracer): boolean {
  return model.haze !== null && litLamps.length > 0;
}
