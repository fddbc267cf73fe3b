import sRgb from 'colorjs.io/src/spaces/srgb.js';
import linearSRgb from 'colorjs.io/src/spaces/srgb-linear.js';
import to from 'colorjs.io/src/to.js';
import { toGamutRayTrace } from 'colorjs.io/src/toGamut.js';
import { type Development, displayColour } from '../../core/picture/develop.ts';
import { withinDisplay } from '../../core/picture/gamut.ts';
import { type LinearRgb, luminanceOfRgb } from '../../core/picture/linear-rgb.ts';
import { times } from '../../core/picture/matrix3.ts';
import { srgbEncoded } from '../../core/picture/srgb-transfer.ts';
import { whiteBalance } from '../../core/picture/white-balance.ts';

/**
 * A swatch of scene light (linear RGB, cd/m²) as #rrggbb of IEC 61966-2-1: as bright as the frame draws it and, where a
 * display has the colour, the same to the last digit. Where it has not (saturated gels, sodium, light near white), the hue
 * is kept as eyes see it, in OKLCh, by ray-traced gamut mapping (CSS Color 4); the frame, which maps every pixel by a line that
 * a shader can run too, keeps it as light mixes.
 * RangeError for a white balance outside 1000–25 000 K, an impossible range, or a zero that is not above 0 cd/m².
 */
export function displayHex(
  rgb_linear: LinearRgb,
  zero_cd_m2: number,
  development: Development,
): `#${string}` {
  if (!(zero_cd_m2 > 0)) throw new RangeError(`zero of ${zero_cd_m2} cd/m²; it must be above 0`);
  const relative = scaled(rgb_linear, 1 / zero_cd_m2);
  const drawn = displayColour(development)(relative);
  return hexOf(development.monochrome ? drawn : keepingHue(relative, drawn, development.whiteBalance_K));
}

function keepingHue(relative: LinearRgb, drawn: LinearRgb, whiteBalance_K: number): LinearRgb {
  const y = luminanceOfRgb(drawn);
  const balanced = times(whiteBalance(whiteBalance_K), relative);
  const Y = luminanceOfRgb(balanced);
  if (!(y > 0 && y < 1 && Y > 0)) return drawn;
  const coords: [number, number, number] = [...scaled(balanced, y / Y)];
  if (coords.every((component) => component >= 0 && component <= 1)) return drawn;
  const mapped = to(toGamutRayTrace({ space: linearSRgb, coords, alpha: 1 }, { space: sRgb }), linearSRgb);
  const [red, green, blue] = mapped.coords;
  // The library keeps OKLCh lightness, which is not luminance; the swatch is to be as bright as the spot reads.
  return withinDisplay([red ?? 0, green ?? 0, blue ?? 0], y);
}

function scaled([red, green, blue]: LinearRgb, k: number): LinearRgb {
  return [k * red, k * green, k * blue];
}

function hexOf(linear: LinearRgb): `#${string}` {
  const bytes = linear.map((component) => Math.round(255 * srgbEncoded(component)));
  return `#${bytes.map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}
