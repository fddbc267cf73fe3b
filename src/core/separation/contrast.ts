/**
 * Contrast of a figure against what is behind it, along a piece of its outline, in stops: C = log₂(L_in/L_out), above zero
 * where the figure is the lighter. Both luminances are first brought within what the camera can show: below its noise floor
 * all is black and above its white all is white, so two blacks or two whites have no contrast whatever a meter reads.
 */
import { confidence95 } from '../math/confidence.ts';
import type { LinearRgb } from '../picture/linear-rgb.ts';
import type { ToneRange } from '../picture/tone-curve.ts';
import { BATCHES, type EdgeLight } from './edge-light.ts';

/** What a picture makes of light: its luminance, or the grey of a monochrome conversion; cd/m² from linear RGB in cd/m². */
export type GreyOf = (rgb: LinearRgb) => number;

/** How the camera sees: what it makes of colour, its zero, and the ends of its range. */
export interface CameraSight {
  readonly greyOf: GreyOf;
  /** Luminance of middle grey, cd/m². */
  readonly zero_cd_m2: number;
  readonly range: ToneRange;
}

/** Which end of the camera's range both sides have run into, if they have. */
export type Merged = 'black' | 'white' | null;

export interface Contrast {
  /** Above zero: the figure is lighter than what is behind it. */
  readonly stops: number;
  /** ± stops, 95 %, of the computation: of both sides together, and of each. */
  readonly numerical_stops: number;
  readonly inside_stops: number;
  readonly outside_stops: number;
  /** Both sides in stops from middle grey before they are brought within the range; −∞ for none or less. */
  readonly levels_stops: readonly [inside: number, outside: number];
  readonly merged: Merged;
}

/** One side of a piece of outline: cells, each with its share of the reading. */
export interface EdgeSide {
  readonly lights: readonly EdgeLight[];
  /** For each cell, those that it shares glow with, itself among them. */
  readonly near: readonly (readonly EdgeLight[])[];
  readonly weights: readonly number[];
}

export function contrastOf(inside: EdgeSide, outside: EdgeSide, sight: CameraSight): Contrast {
  const [i, o] = [levelOf(inside, sight), levelOf(outside, sight)];
  return {
    stops: i.shown - o.shown,
    numerical_stops: Math.hypot(i.error, o.error),
    inside_stops: i.error,
    outside_stops: o.error,
    levels_stops: [i.stops, o.stops],
    merged: mergedEnd(i.shown, o.shown, sight.range),
  };
}

function mergedEnd(inside: number, outside: number, { floor_stops, white_stops }: ToneRange): Merged {
  if (inside <= floor_stops && outside <= floor_stops) return 'black';
  return inside >= white_stops && outside >= white_stops ? 'white' : null;
}

/** Mean linear RGB of one side, cd/m². */
export function meanRgb(side: EdgeSide): LinearRgb {
  return weightedMean(side, 0, BATCHES);
}

/** The mean of each batch. */
function batchMeans(side: EdgeSide): LinearRgb[] {
  return Array.from({ length: BATCHES }, (_, batch) => weightedMean(side, batch, batch + 1));
}

/** Own light and share of the glow near by, in some of the batches, over the cells that have any paths in them. */
function weightedMean({ lights, near, weights }: EdgeSide, from: number, to: number): LinearRgb {
  const sum = [0, 0, 0];
  let whole = 0;
  for (const [k, light] of lights.entries()) {
    const paths = total(light.paths, from, to);
    if (paths === 0) continue;
    whole += weights[k]!;
    const around = near[k]!;
    const aroundPaths = around.reduce((n, other) => n + total(other.paths, from, to), 0);
    for (let c = 0; c < 3; c++) {
      const glow = around.reduce((n, other) => n + total(other.shared, from, to, 3, c), 0) / aroundPaths;
      sum[c]! += weights[k]! * (total(light.rgb, from, to, 3, c) / paths + glow);
    }
  }
  return whole > 0 ? [sum[0]! / whole, sum[1]! / whole, sum[2]! / whole] : [0, 0, 0];
}

function total(sums: Float64Array, from: number, to: number, stride = 1, offset = 0): number {
  let sum = 0;
  for (let k = from; k < to; k++) sum += sums[stride * k + offset]!;
  return sum;
}

/** One side's level as it is, as the camera shows it, and the ± of the latter, all in stops from middle grey. */
function levelOf(side: EdgeSide, { greyOf, zero_cd_m2, range }: CameraSight) {
  const stops = (grey: number) => (grey > 0 ? Math.log2(grey / zero_cd_m2) : Number.NEGATIVE_INFINITY);
  const shown = (grey: number) => Math.min(range.white_stops, Math.max(range.floor_stops, stops(grey)));
  const grey = greyOf(meanRgb(side));
  const e = confidence95(batchMeans(side).map(greyOf));
  const at = shown(grey);
  return { stops: stops(grey), shown: at, error: Math.max(shown(grey + e) - at, at - shown(grey - e)) };
}

/**
 * ± stops, 95 %, of the mean contrast of several pieces of outline. Their errors are not independent, because they share
 * glow: each batch's deviations are added up before their spread is taken. To first order.
 */
export function meanContrastError_stops(
  pieces: readonly { readonly inside: EdgeSide; readonly outside: EdgeSide }[],
  sight: CameraSight,
): number {
  const sums = new Float64Array(BATCHES);
  for (const { inside, outside } of pieces) {
    for (const [side, sign] of [
      [inside, 1],
      [outside, -1],
    ] as const) {
      const grey = sight.greyOf(meanRgb(side));
      const stops = Math.log2(grey / sight.zero_cd_m2);
      if (!(stops > sight.range.floor_stops && stops < sight.range.white_stops)) continue;
      for (const [batch, rgb] of batchMeans(side).entries())
        sums[batch]! += (sign * (sight.greyOf(rgb) / grey - 1)) / Math.LN2 / pieces.length;
    }
  }
  return confidence95(sums);
}
