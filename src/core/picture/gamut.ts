import { type LinearRgb, luminanceOfRgb } from './linear-rgb.ts';

/**
 * The colour of `rgb` as a display can show it at a luminance of `luminance` (0 to 1, display white 1).
 * The triple is scaled to that luminance y and then mixed with the grey of the same luminance as far as needed:
 * - A component below 0 is brought to 0.
 * - With r = (largest − y)/(1 − y), the part that the largest component then takes of its room above the grey, the colour
 *   is whole up to r = 0.6; beyond, it keeps (0.6 + 0.4·t/(1 + t))/r of itself, t = (r − 0.6)/0.4, which begins smoothly
 *   and never leaves the display.
 * So the luminance is always exact and the hue turns no way but toward white: saturated light pales as it nears clipping,
 * and a clipped point is white whatever its colour. What has no luminance of its own is shown grey.
 */
export function withinDisplay(rgb: LinearRgb, luminance: number): LinearRgb {
  const y = Math.min(1, Math.max(0, luminance));
  const Y = luminanceOfRgb(rgb);
  if (y === 0 || y === 1 || !(Y > 0)) return [y, y, y];
  const scale = y / Y;
  const least = scale * Math.min(rgb[0], rgb[1], rgb[2]);
  const positive = least < 0 ? y / (y - least) : 1;
  const r = (positive * (scale * Math.max(rgb[0], rgb[1], rgb[2]) - y)) / (1 - y);
  const kept = positive * (r > WHOLE ? softened(r) / r : 1);
  const mixed = (component: number) => y + kept * (scale * component - y);
  return [mixed(rgb[0]), mixed(rgb[1]), mixed(rgb[2])];
}

const WHOLE = 0.6;

function softened(r: number): number {
  const t = (r - WHOLE) / (1 - WHOLE);
  return WHOLE + (1 - WHOLE) * (1 - 1 / (1 + t));
}
