import { z } from 'zod';
import { fraction, id, name } from './primitives.ts';

/** What lamps are plugged into. `continuous` is the share of the breaker that may be drawn for hours. */
export const supply = z.strictObject({
  id,
  name: name.optional(),
  kind: z.enum(['mains', 'generator', 'battery']),
  volts: z.number().min(5).max(1000),
  phases: z.union([z.literal(1), z.literal(3)], { error: '1 or 3' }).optional(),
  breaker_A: z.number().gt(0).max(10_000).optional(),
  continuous: fraction.optional(),
  rating_kVA: z.number().gt(0).max(10_000).optional(),
  capacity_Wh: z.number().gt(0).max(1e6).optional(),
  cable: z
    .strictObject({ length_m: z.number().min(0).max(5000), area_mm2: z.number().gt(0).max(1000) })
    .optional(),
});
export type Supply = z.infer<typeof supply>;
