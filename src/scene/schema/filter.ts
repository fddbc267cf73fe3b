import { z } from 'zod';
import { fraction, name, stops } from './primitives.ts';

/**
 * What may be put before a lamp. `conversion` is a colour-conversion gel of a mired shift (`transmission` is the
 * luminous one that its swatch states, on the lamp it is made for); `neutral` and `net` lose stops; `table` is a measured transmittance.
 */
export const filter = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('conversion'),
    name: name.optional(),
    shift_mired: z.number().min(-1000).max(1000),
    transmission: z.number().gt(0).max(1).optional(),
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
