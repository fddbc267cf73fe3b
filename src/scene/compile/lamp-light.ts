import type { Face } from '../../core/lamps/face.ts';
import { lampFrame } from '../../core/lamps/lamp-frame.ts';
import type { Lamp as LampModel } from '../../core/light-model/light-model.ts';
import { degreesFromRadians } from '../../core/math/angle.ts';
import { angleBetween, type Vec3 } from '../../core/math/vec3.ts';
import { tiltFactor } from '../../core/photometry/tilt.ts';
import { colourGel } from '../../core/spectra/colour-gel.ts';
import { conversionGel, conversionGelOfTransmission } from '../../core/spectra/conversion-filter.ts';
import { greenGel } from '../../core/spectra/green-gel.ts';
import { neutralTransmission } from '../../core/spectra/neutral.ts';
import { luminousFraction, tristimulusOf } from '../../core/spectra/observer.ts';
import { product, resampled, type Spectrum } from '../../core/spectra/wavelengths.ts';
import { entryNamed, type Library } from '../library/library.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Filter } from '../schema/filter.ts';
import type { FaceShape, Head } from '../schema/head.ts';
import type { Lamp } from '../schema/lamp.ts';
import { behindDiffusion } from './behind-diffusion.ts';
import type { HeadLight } from './head-light.ts';

/** LM-63 counts a luminaire's tilt from the attitude it was measured in: aimed at the nadir. */
const STRAIGHT_DOWN: Vec3 = [0, -1, 0];

/** The light of one lamp: its head's distribution, its place, and what level and filters leave of it. */
export function lampLight(
  lamp: Lamp,
  headLight: HeadLight,
  head: Head,
  filters: readonly Filter[],
): LampModel {
  const { spectrum, colour_XYZ, transmission } = filtered(headLight.spectrum, filters);
  const level = lamp.on === false ? 0 : (lamp.level ?? 1);
  const frame = lampFrame(lamp.position_m, lamp.aim_m, lamp.roll_deg);
  const tilt_deg = degreesFromRadians(angleBetween(frame.a, STRAIGHT_DOWN));
  const burning = headLight.tilt ? tiltFactor(headLight.tilt, tilt_deg) : 1;
  return {
    id: lamp.id,
    name: lamp.name ?? lamp.id,
    head: lamp.head,
    frame,
    face: emittingFace(head.face),
    distribution: behindDiffusion(headLight.distribution, filters),
    gain: level * burning * transmission,
    filterLoss_stops: -Math.log2(transmission),
    spectrum,
    colour_XYZ,
    photometryUncertainty_stops: headLight.uncertainty_stops,
  };
}

/** What a lamp's filters are, by name in the document or the library; their names are known to exist. */
export function filtersOf(lamp: Lamp, document: SceneDocument, library: Library): Filter[] {
  return (lamp.filters ?? []).map((name) => entryNamed(document.filters, library.filters, name)!);
}

/**
 * What a stack of filters makes of a lamp's light: its spectrum and colour, and the luminous share that passes. Their order
 * does not matter. Where the light of diffusion goes is another matter: `behindDiffusion`.
 */
export function filtered(
  spectrum: Spectrum,
  filters: readonly Filter[],
): { readonly spectrum: Spectrum; readonly colour_XYZ: Vec3; readonly transmission: number } {
  let colours: Spectrum = new Float64Array(spectrum.length).fill(1);
  let neutral = 1;
  for (const filter of filters) {
    switch (filter.kind) {
      case 'conversion':
      case 'green':
      case 'colour':
      case 'table':
        colours = product(colours, transmittanceOf(filter));
        break;
      case 'neutral':
      case 'net':
        neutral *= neutralTransmission(filter.stops);
        break;
      case 'diffusion':
        neutral *= filter.transmission;
        break;
    }
  }
  const passed = product(spectrum, colours);
  const [X, Y, Z] = tristimulusOf(passed);
  // A filter that lets nothing through has no colour; equal-energy white stands in, weighted by no light.
  const colour_XYZ: Vec3 = Y > 0 ? [X / Y, 1, Z / Y] : [1, 1, 1];
  return { spectrum: passed, colour_XYZ, transmission: neutral * luminousFraction(spectrum, colours) };
}

type ColouredFilter = Extract<Filter, { kind: 'conversion' | 'green' | 'colour' | 'table' }>;

function transmittanceOf(filter: ColouredFilter): Spectrum {
  switch (filter.kind) {
    case 'conversion': {
      const { shift_mired, transmission } = filter;
      return transmission === undefined
        ? conversionGel(shift_mired)
        : conversionGelOfTransmission(shift_mired, transmission);
    }
    case 'green':
      return greenGel(filter.density);
    case 'colour':
      return colourGel(filter);
    case 'table':
      return resampled(filter.wavelength_nm, filter.transmittance, 'held');
  }
}

export function emittingFace(face: FaceShape): Face {
  switch (face.shape) {
    case 'disc':
      return { shape: 'disc', radius_m: face.diameter_m / 2 };
    case 'rectangle':
      return { shape: 'rectangle', halfSize_m: [face.size_m[0] / 2, face.size_m[1] / 2] };
    case 'octagon':
      return { shape: 'octagon', apothem_m: face.diameter_m / 2 };
  }
}
