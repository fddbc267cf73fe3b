import { z } from 'zod';
import { fraction, name, stops } from './primitives.ts';

const bandwidth_nm = z.number().min(5).max(400);
const visible_nm = z.number().min(350).max(800);

/** What part of the spectrum a colour gel passes. A notch stops what is within. `width_nm` is between the half-way points. */
const band = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('long-pass'), edge_nm: visible_nm }),
  z.strictObject({ shape: z.literal('short-pass'), edge_nm: visible_nm }),
  z.strictObject({ shape: z.literal('band-pass'), centre_nm: visible_nm, width_nm: bandwidth_nm }),
  z.strictObject({ shape: z.literal('notch'), centre_nm: visible_nm, width_nm: bandwidth_nm }),
]);

/**
 * What may be put before a lamp.
 * - `conversion`: a colour-conversion gel of a mired shift; `transmission` is the luminous one that its swatch states, on
 *   the lamp it is made for.
 * - `green`: plus green by its density to blue and red, minus green (below zero) by its density to green.
 * - `colour`: a saturated gel; `softness_nm` is from 10 % to 90 % of an edge, `top` and `floor` are the greatest and the
 *   least transmittance.
 * - `diffusion`: `transmission` is the luminous share that passes, `direct` the share of it that stays straight,
 *   `spread_deg` the full angle at half strength of the rest.
 * - `neutral` and `net` lose stops; `table` is a measured transmittance.
 */
export const filter = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('conversion'),
    name: name.optional(),
    shift_mired: z.number().min(-1000).max(1000),
    transmission: z.number().gt(0).max(1).optional(),
  }),
  z.strictObject({
    kind: z.literal('green'),
    name: name.optional(),
    density: z.number().min(-0.3).max(0.3),
  }),
  z
    .strictObject({
      kind: z.literal('colour'),
      name: name.optional(),
      band,
      softness_nm: bandwidth_nm,
      top: z.number().gt(0).max(0.95),
      floor: fraction,
    })
    .refine((f) => f.floor < f.top, { error: 'a floor below the top', path: ['floor'] }),
  z.strictObject({
    kind: z.literal('diffusion'),
    name: name.optional(),
    transmission: z.number().gt(0).max(1),
    direct: fraction,
    spread_deg: z.number().min(2).max(180),
  }),
  z.strictObject({ kind: z.literal('neutral'), name: name.optional(), stops }),
  z.strictObject({ kind: z.literal('net'), name: name.optional(), stops }),
  z
    .strictObject({
      kind: z.literal('table'),
      name: name.optional(),
      wavelength_nm: z.array(z.number().min(200).max(2500)).min(2).max(4000),
      transmittance: z.array(fraction).min(2).max(4000),
    })
    .refine((f) => f.wavelength_nm.length === f.transmittance.length, {
      error: 'as many transmittances as wavelengths',
      path: ['transmittance'],
    })
    .refine((f) => f.wavelength_nm.every((nm, i) => i === 0 || nm > f.wavelength_nm[i - 1]!), {
      error: 'wavelengths in rising order',
      path: ['wavelength_nm'],
    }),
]);
export type Filter = z.infer<typeof filter>;
