/**
 * False colour: one flat colour for each whole stop from −6 to +6 around the camera's zero, and one for all below and above.
 *
 * A scale of our own, safe for colour-blind eyes. CIE lightness L* rises by equal steps from 12 (−6) to 94 (+6), so that the
 * order shows in grey too; black lies under it and white over it. Middle grey is the one step without colour. Below it
 * hues are blue, above it orange to yellow, near the blue, orange and yellow of Okabe & Ito (Color Universal Design, 2008),
 * the two sides that protan and deutan eyes tell apart as well as others (as in Nuñez, Anderton & Renslow 2018,
 * PLoS ONE 13 (7) e0199239). Odd stops are vivid and even ones muted, so that steps can be counted from one to the next.
 * In CIE LCh (D65): hue 266° at −1 to 300° at −6, 70° at +1 to 100° at +6; chroma 0.90 (odd) or 0.45 (even) of the most
 * that sRGB has there; rounded to 8 bits.
 */
import { luminanceOfRgb } from './linear-rgb.ts';
import { type DisplayPicture, type LinearPicture, pixelwise, type Rgb8 } from './picture.ts';

export interface FalseColourStep {
  /** '−6' to '+6' (the minus sign is U+2212); '<' for all below and '>' for all above. */
  readonly label: string;
  /** The step reaches from here, inclusive, to here, exclusive. */
  readonly from_stops: number;
  readonly to_stops: number;
  readonly rgb: Rgb8;
}

const LOWEST = -6;
const COLOURS: readonly Rgb8[] = [
  [0x1f, 0x1b, 0x3c],
  [0x11, 0x29, 0x69],
  [0x34, 0x3b, 0x5a],
  [0x1b, 0x4d, 0x89],
  [0x4b, 0x5e, 0x7b],
  [0x26, 0x72, 0xab],
  [0x7f, 0x7f, 0x7f],
  [0xca, 0x80, 0x1e],
  [0xc3, 0x9c, 0x69],
  [0xe4, 0xab, 0x29],
  [0xe1, 0xc4, 0x82],
  [0xf8, 0xda, 0x34],
  [0xfc, 0xf0, 0x9d],
];
const HIGHEST = LOWEST + COLOURS.length - 1;

/** The scale from dark to light: under, −6 to +6, over. */
export const FALSE_COLOUR_SCALE: readonly FalseColourStep[] = [
  { label: '<', from_stops: Number.NEGATIVE_INFINITY, to_stops: LOWEST - 0.5, rgb: [0, 0, 0] },
  ...COLOURS.map((rgb, i) => {
    const stops = LOWEST + i;
    return { label: labelOf(stops), from_stops: stops - 0.5, to_stops: stops + 0.5, rgb };
  }),
  { label: '>', from_stops: HIGHEST + 0.5, to_stops: Number.POSITIVE_INFINITY, rgb: [255, 255, 255] },
];

/** The step of middle grey: half a stop to either side of the camera's zero. */
export const MIDDLE_GREY_STEP = FALSE_COLOUR_SCALE[1 - LOWEST]!;

function labelOf(stops: number): string {
  if (stops === 0) return '0';
  return stops < 0 ? `\u2212${-stops}` : `+${stops}`;
}

/** The step that stops from the camera's zero fall in. −∞ is no light, below the scale. RangeError for NaN. */
export function falseColourOf(stops: number): FalseColourStep {
  if (Number.isNaN(stops)) throw new RangeError('stops is NaN; it must be a number');
  const nearest = Math.floor(stops + 0.5);
  const step = Math.min(HIGHEST + 1, Math.max(LOWEST - 1, nearest)) - LOWEST + 1;
  return FALSE_COLOUR_SCALE[step]!;
}

/**
 * The picture in false colour, by luminance before white balance, as a spot meter reads it.
 * RangeError for a malformed picture or a pixel that is no number.
 */
export function falseColourPicture(picture: LinearPicture): DisplayPicture {
  return pixelwise(picture, (rgb) => falseColourOf(Math.log2(Math.max(0, luminanceOfRgb(rgb)))).rgb);
}
