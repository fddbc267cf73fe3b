import { z } from 'zod';
import { fraction, id, name } from './primitives.ts';

export const METALS = ['aluminium', 'chromium', 'iron', 'nickel', 'silver', 'stainless-steel'] as const;

export type Metal = (typeof METALS)[number];

/** A luminous reflectance, a linear RGB one, or the name of a reflectance spectrum in the library. */
const reflectance = z.union([fraction, z.tuple([fraction, fraction, fraction]), id], {
  error: 'a number 0..1, three numbers 0..1 [red, green, blue], or the name of a reflectance spectrum',
});

/**
 * A surface: a diffuse base (`reflectance`), optionally under a clear coat (`coatIor`), or a bare `metal`.
 * `roughness` is that of the coat or the metal, 0 a mirror.
 */
export const material = z
  .strictObject({
    name: name.optional(),
    reflectance: reflectance.optional(),
    metal: z.enum(METALS).optional(),
    roughness: fraction.optional(),
    coatIor: z.number().min(1).max(4).optional(),
  })
  .refine((m) => (m.reflectance === undefined) !== (m.metal === undefined), {
    error: 'either "reflectance" or "metal", one of the two',
  });
export type Material = z.infer<typeof material>;

/** Glass, net or diffusion: the share of light that goes straight on, and the share that is scattered. */
export const pane = z
  .strictObject({
    name: name.optional(),
    direct: fraction,
    scattered: fraction.optional(),
    spread_deg: z.number().gt(0).max(180).optional(),
  })
  .refine((p) => p.direct + (p.scattered ?? 0) <= 1 + 1e-9, {
    error: '"direct" and "scattered" together no more than 1 (a pane cannot add light)',
  });
export type Pane = z.infer<typeof pane>;
