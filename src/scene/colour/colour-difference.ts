import adapt from 'colorjs.io/src/adapt.js';
// Registers Bradford for whites of any colour.
import 'colorjs.io/src/CATs.js';
import deltaE2000 from 'colorjs.io/src/deltaE/deltaE2000.js';
import xyzD50 from 'colorjs.io/src/spaces/xyz-d50.js';
import type { Tristimulus } from '../../core/spectra/observer.ts';

/**
 * CIEDE2000 colour difference ΔE₀₀ (CIE 142; Sharma, Wu & Dalal 2005; kL = kC = kH = 1) of two colours as an eye sees them
 * that is adapted to a white: all three are carried over to D50 by Bradford adaptation, in full, and compared in CIELAB.
 * CIE 1931 XYZ in any one scale, the white at the luminance that counts as white. About 1 is just visible side by side.
 * RangeError unless the white has luminance and all is finite.
 */
export function colourDifference_dE2000(xyzA: Tristimulus, xyzB: Tristimulus, whiteXYZ: Tristimulus): number {
  if (!(whiteXYZ[1] > 0) || ![...xyzA, ...xyzB, ...whiteXYZ].every(Number.isFinite)) {
    throw new RangeError(
      `colours ${xyzA} and ${xyzB} under the white ${whiteXYZ}; give finite X, Y, Z and a white with Y above zero`,
    );
  }
  return deltaE2000(underD50(xyzA, whiteXYZ), underD50(xyzB, whiteXYZ));
}

/** The library reckons CIELAB from D50. */
function underD50(xyz: Tristimulus, whiteXYZ: Tristimulus) {
  return { space: xyzD50, coords: adapt([...whiteXYZ], 'D50', [...xyz]), alpha: 1 };
}
