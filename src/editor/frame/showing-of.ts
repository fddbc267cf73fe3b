import { HUES } from '../../core/monochrome/hue-curve.ts';
import { LUMINANCE_WEIGHTS } from '../../core/picture/linear-rgb.ts';
import { DEFAULT_TONE_RANGE } from '../../core/picture/tone-curve.ts';
import { whiteBalance } from '../../core/picture/white-balance.ts';
import type { Grey, Showing } from '../../preview/renderer/showing.ts';
import { PLAIN, weightsOf } from '../../scene/monochrome/monochrome.ts';
import type { Monochrome } from '../../scene/schema/camera.ts';
import type { FrameCamera } from './frame-desk.ts';
import type { Look } from './frame-state.ts';

/** How the renderer is to show a camera's frame. A camera that is set to monochrome shows grey in the plain look too. */
export function showingOf(
  { zero_cd_m2, whiteBalance_K, monochrome }: FrameCamera,
  look: Look,
  smoothed: boolean,
  markEnds_px: number | undefined,
): Showing {
  return {
    zero_cd_m2,
    whiteBalance: whiteBalance(whiteBalance_K),
    range: DEFAULT_TONE_RANGE,
    smoothed,
    ...asOf(look, monochrome),
    ...(markEnds_px === undefined ? {} : { markEnds_px }),
  };
}

function asOf(look: Look, monochrome: Monochrome | undefined): Pick<Showing, 'as'> {
  switch (look) {
    case 'picture':
      return monochrome ? { as: greyOf(monochrome) } : {};
    case 'monochrome':
      return { as: greyOf(monochrome ?? PLAIN) };
    case 'luminance':
      return { as: { weights: LUMINANCE_WEIGHTS } };
    default:
      return { as: look };
  }
}

function greyOf(monochrome: Monochrome): Grey {
  const weights = weightsOf(monochrome);
  if (weights) return { weights };
  const stops: Readonly<Record<string, number | undefined>> = monochrome.hues ?? {};
  return { hueStops: Object.keys(HUES).map((hue) => stops[hue] ?? 0) };
}
