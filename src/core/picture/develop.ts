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
}

/**
 * Develops scene light into a picture: the hue of the white-balanced colour, at the luminance that the tone curve gives the
 * light before the balance. So each pixel is as bright as a spot meter reads it (along the curve's straight part to the
 * last stop), whatever the colour of its light, and no setting but the camera's exposure changes that.
 * RangeError for a white balance outside 1000–25 000 K, an impossible range, a malformed picture or a pixel that is no number.
 */
export function developed(picture: LinearPicture, { whiteBalance_K, range }: Development): DisplayPicture {
  const balance = whiteBalance(whiteBalance_K);
  const curve = toneCurve(range ?? DEFAULT_TONE_RANGE);
  return pixelwise(picture, (rgb) =>
    stored(withinDisplay(times(balance, rgb), curve.display(luminanceOfRgb(rgb)))),
  );
}

function stored([red, green, blue]: LinearRgb): Rgb8 {
  return [
    Math.round(255 * srgbEncoded(red)),
    Math.round(255 * srgbEncoded(green)),
    Math.round(255 * srgbEncoded(blue)),
  ];
}
