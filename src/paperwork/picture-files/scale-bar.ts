import { FALSE_COLOUR_SCALE, MIDDLE_GREY_STEP } from '../../core/picture/false-colour.ts';
import { checkPicture, type DisplayPicture, type Rgb8 } from '../../core/picture/picture.ts';
import { GLYPH_HEIGHT_dots, textWidth_px, writeText } from './small-font.ts';

const GROUND: Rgb8 = [0x16, 0x16, 0x16];
const INK: Rgb8 = [0xe6, 0xe6, 0xe6];
/** Type grows with the picture: one dot of a letter is a pixel for each so many of the width. */
const WIDTH_A_DOT_px = 480;
const BAND_dots = 10;
const MARGIN_dots = 3;

/** The false-colour picture with its scale beneath. RangeError for a malformed picture. */
export function withScaleBar(picture: DisplayPicture): DisplayPicture {
  checkPicture(picture);
  const { width_px, height_px, rgb } = picture;
  const bar = scaleBar(width_px);
  const both = new Uint8Array(rgb.length + bar.rgb.length);
  both.set(rgb);
  both.set(bar.rgb, rgb.length);
  return { width_px, height_px: height_px + bar.height_px, rgb: both };
}

/**
 * The scale of false colour, to stand beneath a picture of this width: a band for each step, dark to light, its stops under
 * it, and a notch of ink above and below the step of middle grey. Where there is no room for every label, every second, third
 * or sixth is left, and always middle grey's.
 */
export function scaleBar(width_px: number): DisplayPicture {
  const dot = Math.max(1, Math.round(width_px / WIDTH_A_DOT_px));
  const [bandTop, band] = [MARGIN_dots * dot, BAND_dots * dot];
  const labelTop = bandTop + band + MARGIN_dots * dot;
  const height_px = labelTop + (GLYPH_HEIGHT_dots + MARGIN_dots) * dot;
  const bar: DisplayPicture = { width_px, height_px, rgb: new Uint8Array(3 * width_px * height_px) };
  fill(bar, 0, 0, width_px, height_px, GROUND);

  const steps = FALSE_COLOUR_SCALE.length;
  const edge = (step: number) => Math.round((step * width_px) / steps);
  const grey = FALSE_COLOUR_SCALE.indexOf(MIDDLE_GREY_STEP);
  const labelEvery = labelSpacing(width_px / steps, dot);
  for (const [i, { rgb, label }] of FALSE_COLOUR_SCALE.entries()) {
    fill(bar, edge(i), bandTop, edge(i + 1), bandTop + band, rgb);
    if ((i - grey) % labelEvery !== 0) continue;
    const left = Math.round((edge(i) + edge(i + 1) - textWidth_px(label, dot)) / 2);
    writeText(bar, label, left, labelTop, dot, INK);
  }
  const [notchLeft, notchRight] = [edge(grey), edge(grey + 1)];
  fill(bar, notchLeft, bandTop - 2 * dot, notchRight, bandTop - dot, INK);
  fill(bar, notchLeft, bandTop + band + dot, notchRight, bandTop + band + 2 * dot, INK);
  return bar;
}

/** Each label needs its own width and a letter's space to the next. */
function labelSpacing(bandWidth_px: number, dot: number): number {
  const widest = Math.max(...FALSE_COLOUR_SCALE.map(({ label }) => textWidth_px(`${label} `, dot)));
  return [1, 2, 3, 6].find((every) => every * bandWidth_px >= widest) ?? FALSE_COLOUR_SCALE.length;
}

function fill(
  { width_px, rgb }: DisplayPicture,
  left: number,
  top: number,
  right: number,
  bottom: number,
  colour: Rgb8,
): void {
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++) rgb.set(colour, 3 * (y * width_px + x));
  }
}
