import type { Surface } from '../../core/light-model/light-model.ts';
import { linearRgbFromXyz } from '../../core/picture/linear-rgb.ts';
import { tristimulusOf } from '../../core/spectra/observer.ts';
import { product, type Spectrum } from '../../core/spectra/wavelengths.ts';

/**
 * What every surface's base makes of every lamp's light, in linear RGB for lamp light of luminance 1, integrated over the
 * spectrum once. A surface whose reflectance is given as RGB has no spectrum; its RGB multiplies the lamp's.
 * `lampSpectra` are those of the lamps after their filters.
 */
export function lampOnSurface_RGB(
  lampSpectra: readonly Spectrum[],
  surfaces: readonly Surface[],
  surfaceSpectra: readonly (Spectrum | null)[],
): Float64Array {
  const table = new Float64Array(3 * lampSpectra.length * surfaces.length);
  for (const [l, lamp] of lampSpectra.entries()) {
    const [X, Y, Z] = tristimulusOf(lamp);
    if (!(Y > 0)) continue;
    const own = linearRgbFromXyz([X / Y, 1, Z / Y]);
    for (const [s, surface] of surfaces.entries()) {
      const spectrum = surfaceSpectra[s];
      const reflected = spectrum
        ? linearRgbFromXyz(
            tristimulusOf(product(lamp, spectrum)).map((v) => v / Y) as [number, number, number],
          )
        : own.map((value, c) => value * surface.optics.baseRgb[c]!);
      table.set(reflected, 3 * (l * surfaces.length + s));
    }
  }
  return table;
}
