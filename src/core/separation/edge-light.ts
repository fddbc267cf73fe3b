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

/** Glow of the first paths, before it is known how much of it a cell keeps: batch and linear RGB, path after path. */
type GlowOfPaths = number[];

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
  const kept: GlowOfPaths = [];
  for (let batch = 0; batch < BATCHES; batch++) {
    const random = seededRandom(key + 0x632be59b * (batch + 1));
    for (let path = light.next; path < light.next + count; path++) {
      startPath(random, path);
      let onSide = false;
      for (let draw = 0; draw < MOST_DRAWS && !onSide; draw++) {
        const along = cell.length * nextRandom(random);
        pointAlong(cell.line, along, band * nextRandom(random), place);
        rayThrough(lens, place.x, place.y, ray);
        onSide = meetsFigure(tracer.model, figure, ray) === (side === 'inside');
      }
      if (!onSide) continue;
      bins.fill(0);
      tracePath(tracer, random, { ...ray, from: 'camera', density: 0 }, 1, bins);
      for (let k = 0; k < bins.length; k++) light.bins[k]! += bins[k]!;
      light.paths[batch]!++;
      gatherPath(light, bins, batch, kept);
    }
  }
  light.next += count;
  if (light.mostGlow === null) {
    light.mostGlow = SHARED_ABOVE_MEDIAN * medianGlow(kept);
    for (let k = 0; k < kept.length; k += 4)
      gatherGlow(light, kept[k]!, kept[k + 1]!, kept[k + 2]!, kept[k + 3]!);
  }
}

/** Light off surfaces and the sky, and the glow of the haze before them; while it is unknown what to do with that, into `kept`. */
function gatherPath(light: EdgeLight, bins: LightBins, batch: number, kept: GlowOfPaths): void {
  let [r, g, b] = [0, 0, 0];
  const stride = lampBin(1, HAZE) - lampBin(0, HAZE);
  for (let k = lampBin(0, HAZE); k < bins.length; k += stride) {
    r += bins[k]!;
    g += bins[k + 1]!;
    b += bins[k + 2]!;
  }
  const at = 3 * batch;
  for (let k = 0; k < bins.length; k += 3) {
    light.rgb[at]! += bins[k]!;
    light.rgb[at + 1]! += bins[k + 1]!;
    light.rgb[at + 2]! += bins[k + 2]!;
  }
  light.rgb[at]! -= r;
  light.rgb[at + 1]! -= g;
  light.rgb[at + 2]! -= b;
  if (light.mostGlow === null) kept.push(batch, r, g, b);
  else gatherGlow(light, batch, r, g, b);
}

function gatherGlow(light: EdgeLight, batch: number, r: number, g: number, b: number): void {
  const L = luminance(r, g, b);
  const own = L > light.mostGlow! ? light.mostGlow! / L : 1;
  const at = 3 * batch;
  light.rgb[at]! += own * r;
  light.rgb[at + 1]! += own * g;
  light.rgb[at + 2]! += own * b;
  light.shared[at]! += (1 - own) * r;
  light.shared[at + 1]! += (1 - own) * g;
  light.shared[at + 2]! += (1 - own) * b;
}

function medianGlow(kept: GlowOfPaths): number {
  const sorted: number[] = [];
  for (let k = 0; k < kept.length; k += 4) sorted.push(luminance(kept[k + 1]!, kept[k + 2]!, kept[k + 3]!));
  sorted.sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}
