import { z } from 'zod';
import { beamAngle_deg, colourTemperature_K, fieldAngle_deg, fileName, name, size_m } from './primitives.ts';

const intensity = z.number().gt(0).max(1e10);
const beamAngles = { beam_deg: beamAngle_deg, field_deg: fieldAngle_deg };
const fieldIsWider = (p: { beam_deg: number; field_deg: number }) => p.field_deg > p.beam_deg;
const FIELD_IS_WIDER = {
  error: 'a field angle (10 % edge) wider than the beam angle (50 % edge)',
  path: ['field_deg'],
};

/**
 * Where a head's candela come from. `file` is LM-63 or EULUMDAT; its text travels inside the document (`text`) or
 * stands beside the scene under the name `file`. `lampSet` chooses among several in an EULUMDAT file, 0 the first.
 */
export const photometry = z.discriminatedUnion('kind', [
  z
    .strictObject({ kind: z.literal('beam'), peak_cd: intensity, ...beamAngles })
    .refine(fieldIsWider, FIELD_IS_WIDER),
  z
    .strictObject({
      kind: z.literal('metered'),
      illuminance_lx: intensity,
      distance_m: size_m,
      ...beamAngles,
    })
    .refine(fieldIsWider, FIELD_IS_WIDER),
  z
    .strictObject({ kind: z.literal('lumens'), flux_lm: intensity, ...beamAngles })
    .refine(fieldIsWider, FIELD_IS_WIDER),
  z.strictObject({ kind: z.literal('diffuse'), flux_lm: intensity }),
  z.strictObject({
    kind: z.literal('file'),
    file: fileName,
    text: z.string().max(8_000_000).optional(),
    lampSet: z.int().min(0).max(50).optional(),
  }),
]);
export type Photometry = z.infer<typeof photometry>;

export const face = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('disc'), diameter_m: size_m }),
  z.strictObject({ shape: z.literal('rectangle'), size_m: z.tuple([size_m, size_m]) }),
  /** Diameter across the flats. */
  z.strictObject({ shape: z.literal('octagon'), diameter_m: size_m }),
]);
export type FaceShape = z.infer<typeof face>;

export const spectrum = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('planck'), cct_K: colourTemperature_K }),
  z.strictObject({ kind: z.literal('daylight'), cct_K: z.number().min(4000).max(25_000) }),
  z.strictObject({ kind: z.literal('discharge'), cct_K: colourTemperature_K }),
  z.strictObject({ kind: z.literal('led'), cct_K: colourTemperature_K }),
  z
    .strictObject({
      kind: z.literal('table'),
      wavelength_nm: z.array(z.number().min(200).max(2500)).min(2).max(4000),
      value: z.array(z.number().min(0).max(1e12)).min(2).max(4000),
    })
    .refine((s) => s.wavelength_nm.length === s.value.length, {
      error: 'as many values as wavelengths',
      path: ['value'],
    })
    .refine((s) => s.wavelength_nm.every((nm, i) => i === 0 || nm > s.wavelength_nm[i - 1]!), {
      error: 'wavelengths in rising order',
      path: ['wavelength_nm'],
    }),
]);
export type LampSpectrum = z.infer<typeof spectrum>;

const electrical = z.strictObject({
  kind: z.enum(['tungsten', 'discharge', 'fluorescent', 'led']),
  input_W: z.number().min(0).max(100_000),
  powerFactor: z.number().gt(0).max(1).optional(),
  flicker: z.enum(['free', 'mains']).optional(),
  inrush_A: z.number().min(0).max(10_000).optional(),
  restrike_min: z.number().min(0).max(120).optional(),
});

/** A kind of lamp: what it emits, from what face, and what it draws, weighs and catches of the wind. */
export const head = z.strictObject({
  name: name.optional(),
  photometry,
  face,
  spectrum,
  electrical: electrical.optional(),
  mass_kg: z.number().min(0).max(1000).optional(),
  windArea_m2: z.number().min(0).max(100).optional(),
});
export type Head = z.infer<typeof head>;
