import type { Distribution } from './distribution.ts';
import { flux_lm } from './flux.ts';
import type { PhotometricFile } from './photometric-data.ts';

/** The ways a lamp's light may be known. Angles are full angles at 50 % and 10 % of the peak. */
export type LampPhotometry =
  | (BeamAngles & { readonly kind: 'beam'; readonly peak_cd: number })
  | (BeamAngles & {
      readonly kind: 'metered';
      /** Read on the axis with the cell square to it, at a distance where the face looks small (five times its size). */
      readonly illuminance_lx: number;
      readonly distance_m: number;
    })
  /** The flux is that of the whole profile, stray light outside the field included. */
  | (BeamAngles & { readonly kind: 'lumens'; readonly flux_lm: number })
  | { readonly kind: 'diffuse'; readonly flux_lm: number }
  | { readonly kind: 'file'; readonly file: PhotometricFile };

interface BeamAngles {
  readonly beam_deg: number;
  readonly field_deg: number;
}

/**
 * The distribution that a lamp's photometry stands for: I₀ as given, E·d² from a meter reading, Φ/∫profile dΩ from
 * lumens, Φ/π from the flux of a Lambertian face, or the file's own table.
 * @throws RangeError for figures that no lamp can have
 */
export function distributionFrom(photometry: LampPhotometry): Distribution {
  switch (photometry.kind) {
    case 'beam':
      return beam(photometry, positive('peak_cd', photometry.peak_cd, 'cd'));
    case 'metered': {
      const E = positive('illuminance_lx', photometry.illuminance_lx, 'lx');
      const d = positive('distance_m', photometry.distance_m, 'm');
      return beam(photometry, E * d * d);
    }
    case 'lumens': {
      const flux = positive('flux_lm', photometry.flux_lm, 'lm');
      return beam(photometry, flux / flux_lm(beam(photometry, 1)));
    }
    case 'diffuse':
      return { kind: 'lambert', peak_cd: positive('flux_lm', photometry.flux_lm, 'lm') / Math.PI };
    case 'file':
      return photometry.file.distribution;
  }
}

/**
 * How far the light may be from what the photometry says, in stops (±). Common practice, no source: a meter on the lamp
 * itself is good to a third, a published table or beam to two thirds, a bare flux figure to one.
 */
export function photometryUncertainty_stops(kind: LampPhotometry['kind']): number {
  switch (kind) {
    case 'metered':
      return 1 / 3;
    case 'file':
    case 'beam':
      return 2 / 3;
    case 'lumens':
    case 'diffuse':
      return 1;
  }
}

/** Half of the light falls off within the front; the last tenth may wrap round behind, as with a bare lantern. */
const MAX_BEAM_DEG = 180;
const FIELD_BELOW_DEG = 360;

function beam({ beam_deg, field_deg }: BeamAngles, peak_cd: number): Distribution {
  if (!(beam_deg > 0 && beam_deg <= MAX_BEAM_DEG)) {
    throw new RangeError(
      `beam_deg is ${beam_deg}: the beam angle must be above 0 and at most ${MAX_BEAM_DEG} degrees`,
    );
  }
  if (!(field_deg > beam_deg && field_deg < FIELD_BELOW_DEG)) {
    throw new RangeError(
      `field_deg is ${field_deg}: the field angle (10 %) must be wider than the beam angle (50 %), which is ${beam_deg}, and below ${FIELD_BELOW_DEG} degrees`,
    );
  }
  return { kind: 'beam', peak_cd, beam_deg, field_deg };
}

function positive(name: string, value: number, unit: string): number {
  if (value > 0 && Number.isFinite(value)) return value;
  throw new RangeError(`${name} is ${value}: it must be a number above zero, in ${unit}`);
}
