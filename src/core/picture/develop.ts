import type { MonochromeConversion } from '../monochrome/conversion.ts';
import { withinDisplay } from './gamut.ts';
import { type LinearRgb, luminanceOfRgb } from './linear-rgb.ts';
import { times } from './matrix3.ts';
import { type DisplayPicture, type LinearPicture, pixelwise, type Rgb8 } from './picture.ts';
import { srgbEncoded } from './srgb-transfer.ts';
import { DEFAULT_TONE_RANGE, type ToneRange, toneCurve } from './tone-curve.ts';
import { whiteBalance } from './white-balance.ts';

export interface Development {
  readonly whiteBalance_K: number;
  readonly range?: ToneRange;
  /** Grey instead of colour, converted in linear light after the white balance. */
  readonly monochrome?: MonochromeConversion | undefined;
}

/**
 * Develops scene light into a picture: the hue of the white-balanced colour, at the luminance that the tone curve gives the
 * light before the balance. So each pixel is as bright as a spot meter reads it (along the curve's straight part to the
 * last stop), whatever the colour of its light, and no setting but the camera's exposure changes that. In monochrome, each
 * pixel is the grey that the conversion makes of the balanced colour, through the same curve.
 * RangeError for a white balance outside 1000–25 000 K, an impossible range, a malformed picture or a pixel that is no number.
 */
export function developed(picture: LinearPicture, development: Development): DisplayPicture {
  const shown = displayColour(development);
  return pixelwise(picture, (rgb) => stored(shown(rgb)));
}

/**
 * What a display shows for scene light relative to the camera's zero: linear RGB, 0 to 1. RangeError for a white balance
 * outside 1000–25 000 K or an impossible range.
 */
export function displayColour({
  whiteBalance_K,
  range,
  monochrome,
}: Development): (rgb: LinearRgb) => LinearRgb {
  const balance = whiteBalance(whiteBalance_K);
  const curve = toneCurve(range ?? DEFAULT_TONE_RANGE);
  if (monochrome) {
    return (rgb) => {
      const grey = curve.display(monochrome(times(balance, rgb)));
      return [grey, grey, grey];
    };
  }
  return (rgb) => withinDisplay(times(balance, rgb), curve.display(luminanceOfRgb(rgb)));
}

function stored([red, green, blue]: LinearRgb): Rgb8 {
  return [
    Math.round(255 * srgbEncoded(red)),
    Math.round(255 * srgbEncoded(green)),
    Math.round(255 * srgbEncoded(blue)),
  ];
}
