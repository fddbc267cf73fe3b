import type { Matrix3 } from '../../core/picture/matrix3.ts';
import type { ToneRange } from '../../core/picture/tone-curve.ts';
import { LOOKS } from '../shaders/show.ts';

/** How grey is made of colour after the white balance: by weights of the channels, or stops of the eight hues. */
export type Grey =
  | { readonly weights: readonly [number, number, number] }
  | { readonly hueStops: readonly number[] };

/** How light becomes a picture: by the camera's exposure and white balance, and nothing else. */
export interface Showing {
  readonly zero_cd_m2: number;
  readonly whiteBalance: Matrix3;
  readonly range: ToneRange;
  /** Instead of the picture in its colours: in greys, in false colour by stops, or what its surfaces are. */
  readonly as?: Grey | 'stops' | 'normals' | 'things';
  /** Noise is smoothed out for the eye, edges kept: whoever shows it says so. */
  readonly smoothed?: boolean;
  /** Marks what is clipped and what is lost in noise, with strokes so many canvas pixels wide. */
  readonly markEnds_px?: number;
}

export function needsGuide({ as, smoothed }: Showing): boolean {
  return smoothed === true || as === 'normals' || as === 'things';
}

export function showUniforms(
  frameSize: readonly [number, number],
  canvasSize: readonly [number, number],
  showing: Showing,
): Record<string, readonly number[]> {
  const { zero_cd_m2, whiteBalance, range, as, markEnds_px } = showing;
  const [balanceRed, balanceGreen, balanceBlue] = whiteBalance;
  const hueStops = typeof as === 'object' && 'hueStops' in as ? as.hueStops : [];
  const hue = (i: number) => hueStops[i] ?? 0;
  return {
    frameSize,
    canvasSize,
    look: [LOOKS.indexOf(lookOf(as))],
    zero_cd_m2: [zero_cd_m2],
    balanceRed,
    balanceGreen,
    balanceBlue,
    toneStops: [range.white_stops, range.floor_stops],
    greyWeights: typeof as === 'object' && 'weights' in as ? as.weights : [0, 0, 0],
    hueStopsFirst: [0, 1, 2, 3].map(hue),
    hueStopsLast: [4, 5, 6, 7].map(hue),
    marksEnds: [markEnds_px === undefined ? 0 : 1],
    mark_px: [markEnds_px ?? 1],
  };
}

function lookOf(as: Showing['as']): (typeof LOOKS)[number] {
  if (as === undefined) return 'picture';
  if (typeof as === 'string') return as;
  return 'weights' in as ? 'weights' : 'hues';
}
