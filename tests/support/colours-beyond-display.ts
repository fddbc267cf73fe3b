import { mixed32 } from '../../src/core/math/kronecker.ts';
import {
  type LinearRgb,
  linearRgbFromXyz,
  luminanceOfRgb,
  PRIMARIES,
  tristimulusAt,
} from '../../src/core/picture/linear-rgb.ts';
import { type Tristimulus, tristimulusOf } from '../../src/core/spectra/observer.ts';
import { SAMPLES } from '../../src/core/spectra/wavelengths.ts';

/**
 * Real light that no sRGB display shows at its luminance: white and two monochromatic lights, mixed by chance, seeded, at
 * −5 to +2.4 stops from a grey of 18 % of display white. `y` is the luminance, 1 for display white.
 */
export function coloursBeyondDisplay(count: number): { readonly rgb: LinearRgb; readonly y: number }[] {
  let seed = 0;
  const chance = () => mixed32(++seed) / 2 ** 32;
  return Array.from({ length: count }, () => {
    for (;;) {
      const [one, other] = [monochromatic(chance()), monochromatic(chance())];
      const [share, purity] = [chance(), chance()];
      const part = (i: 0 | 1 | 2) =>
        purity * (share * one[i] + (1 - share) * other[i]) + (1 - purity) * WHITE[i];
      const mixed = linearRgbFromXyz([part(0), part(1), part(2)]);
      const y = 0.18 * 2 ** (-5 + 7.4 * chance());
      const k = y / luminanceOfRgb(mixed);
      const rgb: LinearRgb = [k * mixed[0], k * mixed[1], k * mixed[2]];
      if (rgb.some((component) => component < 0 || component > 1)) return { rgb, y };
    }
  });
}

/** From 400 to 695 nm. */
function monochromatic(u: number): Tristimulus {
  const line = new Float64Array(SAMPLES);
  line[4 + Math.floor(60 * u)] = 1;
  return ofUnitSum(tristimulusOf(line));
}

function ofUnitSum([X, Y, Z]: Tristimulus): Tristimulus {
  const sum = X + Y + Z;
  return [X / sum, Y / sum, Z / sum];
}

const WHITE = ofUnitSum(tristimulusAt(PRIMARIES.white));
