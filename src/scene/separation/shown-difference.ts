import { type Development, displayColour } from '../../core/picture/develop.ts';
import { type LinearRgb, xyzFromLinearRgb } from '../../core/picture/linear-rgb.ts';
import { type CameraSight, type EdgeSide, meanRgb } from '../../core/separation/contrast.ts';
import type { Tristimulus } from '../../core/spectra/observer.ts';
import { colourDifference_dE2000 } from '../colour/colour-difference.ts';

const DISPLAY_WHITE = xyzFromLinearRgb([1, 1, 1]);

/**
 * CIEDE2000 between the two sides as a display shows the developed frame: white-balanced, through the tone curve, for an
 * eye adapted to the display's white. Middle grey is L* 49.5 in it, and what is black or white to the camera is one colour.
 * `ofColour` is the same with the brighter side dimmed to the darker, so that only their colours differ.
 */
export function differenceShown(
  { inside, outside }: { readonly inside: EdgeSide; readonly outside: EdgeSide },
  { zero_cd_m2 }: CameraSight,
  development: Development,
): { readonly whole: number; readonly ofColour: number } {
  const develop = displayColour(development);
  const xyz = (side: EdgeSide) =>
    xyzFromLinearRgb(develop(meanRgb(side).map((v) => v / zero_cd_m2) as unknown as LinearRgb));
  const [a, b] = [xyz(inside), xyz(outside)];
  const least = Math.min(a[1], b[1]);
  const dimmed = (colour: Tristimulus) =>
    (colour[1] > 0 ? colour.map((v) => (v * least) / colour[1]) : colour) as unknown as Tristimulus;
  return {
    whole: colourDifference_dE2000(a, b, DISPLAY_WHITE),
    ofColour: colourDifference_dE2000(dimmed(a), dimmed(b), DISPLAY_WHITE),
  };
}
