/**
 * What strong light at the lens lays over the whole picture. The veiling glare index of a lens (ISO 9358:1994, from memory)
 * is the light in the image of a black spot in an endless even field, as a share of the light beside it: V = L_veil/L. That
 * field, of luminance L all over the hemisphere, lights the lens with E = π·L. If stray light depends on E alone,
 *
 *   L_veil = V·E/π,   E at the entrance pupil, square to the optical axis.
 *
 * Good within a factor of four (two stops): a real lens scatters more from some directions than from others, turns part of
 * the light into ghosts, and its hood shades it from lamps well out of frame, of which this knows nothing.
 */
export const VEILING_GLARE_INDEX = 0.02;
/** ± of the estimate. */
export const VEIL_UNCERTAINTY_stops = 2;

/**
 * Luminance of the veil, cd/m², from the illuminance at the lens. The index is 1 to 3 % for coated lenses in good order,
 * more for zooms and dusty ones (common practice, no source).
 */
export function veil_cd_m2(lens_lx: number, index = VEILING_GLARE_INDEX): number {
  return (index * lens_lx) / Math.PI;
}
