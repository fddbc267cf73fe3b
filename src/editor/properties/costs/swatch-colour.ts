import { DEFAULT_CALIBRATION } from '../../../core/exposure/zero.ts';
import type { Vec3 } from '../../../core/math/vec3.ts';
import { linearRgbFromXyz } from '../../../core/picture/linear-rgb.ts';
import { colourTemperatureOf } from '../../../core/spectra/colour-temperature.ts';
import { displayHex } from '../../../scene/colour/display-colour.ts';
import { filtered } from '../../../scene/compile/lamp-light.ts';
import { newPalette } from '../../../scene/compile/palette.ts';
import { LIBRARY } from '../../../scene/library/library.ts';
import type { Filter } from '../../../scene/schema/filter.ts';
import type { Material } from '../../../scene/schema/material.ts';
import { spectrumOfLamp } from './spectrum-of-lamp.ts';

/** White of the display, so that a neutral surface stays neutral. */
const DISPLAY_WHITE_K = 6504;
const WHITE_CARD = 0.88;
/** What a flat cell reads as correct lights a card to this luminance, relative to K, for reflectance 1. */
const RELATIVE_LUMINANCE = DEFAULT_CALIBRATION.flat / (Math.PI * DEFAULT_CALIBRATION.reflected);

const ofMaterial = new WeakMap<Material, string>();
const ofFilter = new WeakMap<Filter, string>();

/** The base of a material as the frame draws it in neutral light that a flat cell reads as correct: #rrggbb. */
export function materialHex(material: Material): string {
  let hex = ofMaterial.get(material);
  if (!hex) {
    hex = litHex(baseReflectance(material), DISPLAY_WHITE_K);
    ofMaterial.set(material, hex);
  }
  return hex;
}

/** Linear RGB of a material's base, or of a bare metal straight on. */
export function baseReflectance(material: Material): Vec3 {
  const palette = newPalette({ keyfall: 1, title: '', materials: { it: material } }, LIBRARY);
  return palette.surfaces[palette.surface('it')]!.reflectance;
}

/** A white card lit through a filter by a daylight lamp that reads correct without it, balanced for that lamp: #rrggbb. */
export function filterHex(filter: Filter): string {
  let hex = ofFilter.get(filter);
  if (!hex) {
    const lamp = spectrumOfLamp({ kind: 'daylight', cct_K: 5600 });
    const { colour_XYZ, transmission } = filtered(lamp, [filter]);
    const Y = WHITE_CARD * transmission;
    hex = litHex(
      linearRgbFromXyz([colour_XYZ[0] * Y, colour_XYZ[1] * Y, colour_XYZ[2] * Y]),
      colourTemperatureOf(filtered(lamp, []).colour_XYZ)!.cct_K,
    );
    ofFilter.set(filter, hex);
  }
  return hex;
}

function litHex([r, g, b]: Vec3 | readonly [number, number, number], whiteBalance_K: number): string {
  const k = RELATIVE_LUMINANCE;
  return displayHex([k * r, k * g, k * b], 1, { whiteBalance_K });
}
