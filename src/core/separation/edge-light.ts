/**
 * Light on one side of a piece of outline, read by paths from the camera, all light counted.
 *
 * Haze between the camera and a figure scatters a few paths off to something bright, and those few carry a good part of
 * its glow: read cell by cell they would be noise. But what they stand for, light scattered twice and more, is smooth. So
 * of each path's glow, what is above twice the cell's median is shared evenly with the cells near by. No light is lost;
 * only its fine place along the outline is.
 */
import { newCameraRay, type ThinLens } from '../camera/thin-lens.ts';
import { mixed32 } from '../math/kronecker.ts';
import { nextRandom, seededRandom, startPath } from '../math/random.ts';
import { HAZE, type LightBins, lampBin, luminance, newLightBins } from '../transport/light-bins.ts';
import { tracePath } from '../transport/path.ts';
import type { Tracer } from '../transport/tracer.ts';
import { bandWidth, type EdgeCell, meetsFigure, pointAlong } from './edge-cell.ts';
import { rayThrough } from './image-plane.ts';

/** Independent estimates of every reading, whose spread is its error. */
export const BATCHES = 16;

export type Side = 'inside' | 'outside';

/** Light read so far on one side of a cell: linear RGB sums (cd/m²), three numbers a batch, and paths of each batch. */
export interface EdgeLight {
  readonly rgb: Float64Array;
  readonly paths: Float64Array;
  /** Glow that is shared, not in `rgb`. */
  readonly shared: Float64Array;
  /** All of this cell's light by lamp and sender. */
  readonly bins: LightBins;
  /** Glow above this luminance is shared; unknown before the first paths. */
  mostGlow: number | null;
  /** Number of the next path. */
  next: number;
}

export function newEdgeLight(lampCount: number): EdgeLight {
  return {
    rgb: new Float64Array(3 * BATCHES),
    paths: new Float64Array(BATCHES),
    shared: new Float64Array(3 * BATCHES),
    bins: newLightBins(lampCount),
    mostGlow: null,
    next: 0,
  };
}

const ray = newCameraRay();
const place = { x: 0, y: 0 };
/** Where an edge curves, part of the band is on the wrong side of it: such a place is drawn anew, so many times. */
const MOST_DRAWS = 24;
const SHARED_ABOVE_MEDIAN = 2;

/** Light of one path: off surfaces and the sky, and the glow of the haze before them. */
interface PathLight {
  readonly batch: number;
  readonly direct: readonly [number, number, number];
  readonly glow: readonly [number, number, number];
}

/**
 * Follows `count` paths a batch through random places of the band on one side of a cell, as the spot meter does
 * (`frame/spot-reading.ts`). A path depends on the cell, the side, the batch and its number alone.
 */
export function addEdgePaths(
  tracer: Tracer,
  lens: ThinLens,
  figure: number,
  cell: EdgeCell,
  side: Side,
  light: EdgeLight,
  count: number,
): void {
  const band = bandWidth(lens) * (side === 'inside' ? -1 : 1);
  const bins = newLightBins(tracer.model.lamps.length);
  const key = mixed32(mixed32(4 * cell.ring + (side === 'inside' ? 1 : 2)) + cell.index);
  const found: PathLight[] = [];
  for (let batch = 0; batch < BATCHES; batch++) {
    const random = seededRandom(key + 0x632be59b * (batch + 1));
    for (let path = light.next; path < light.next + count; path++) {
      startPath(random, path);
      let onSide = false;
      for (let draw = 0; draw < MOST_DRAWS && !onSide; draw++) {
        const along = nextRandom(random);
        pointAlong(cell.line, along, band * nextRandom(random), place);
        rayThrough(lens, place.x, place.y, ray);
        onSide = meetsFigure(tracer.model, figure, ray) === (side === 'inside');
      }
      if (!onSide) continue;
      bins.fill(0);
      tracePath(tracer, random, { ...ray, from: 'camera', density: 0 }, 1, bins);
      for (let k = 0; k < bins.length; k++) light.bins[k]! += bins[k]!;
      found.push(pathLight(batch, bins));
    }
  }
  light.next += count;
  light.mostGlow ??= SHARED_ABOVE_MEDIAN * medianGlow(found);
  for (const path of found) gather(light, path, light.mostGlow);
}

function pathLight(batch: number, bins: LightBins): PathLight {
  const direct: [number, number, number] = [0, 0, 0];
  const glow: [number, number, number] = [0, 0, 0];
  const ofHaze = lampBin(0, HAZE) / 3;
  for (let k = 0; k < bins.length; k++) {
    const bin = Math.floor(k / 3);
    const isGlow = bin % 2 === ofHaze && bin < bins.length / 3 - 1;
    (isGlow ? glow : direct)[k % 3]! += bins[k]!;
  }
  return { batch, direct, glow };
}

function medianGlow(paths: readonly PathLight[]): number {
  const sorted = paths.map(({ glow }) => luminance(...glow)).sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

function gather(light: EdgeLight, { batch, direct, glow }: PathLight, mostGlow: number): void {
  const L = luminance(...glow);
  const own = L > mostGlow ? mostGlow / L : 1;
  for (let c = 0; c < 3; c++) {
    light.rgb[3 * batch + c]! += direct[c]! + own * glow[c]!;
    light.shared[3 * batch + c]! += (1 - own) * glow[c]!;
  }
  light.paths[batch]!++;
}
