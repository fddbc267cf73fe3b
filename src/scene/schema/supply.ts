import { z } from 'zod';
import { id, name } from './primitives.ts';

/**
 * What lamps are plugged into. `volts` is what a lamp gets: with three phases, from a phase to neutral (230, 120), not between
 * two phases (400, 208). `breaker_A` is that of each phase; `continuous` is the share of it that may be drawn for hours.
 */
export const supply = z.strictObject({
  id,
  name: name.optional(),
  kind: z.enum(['mains', 'generator', 'battery']),
  volts: z.number().min(5).max(1000),
  phases: z.union([z.literal(1), z.literal(3)], { error: '1 or 3' }).optional(),
  breaker_A: z.number().gt(0).max(10_000).optional(),
  continuous: z.number().gt(0).max(1).optional(),
  rating_kVA: z.number().gt(0).max(10_000).optional(),
  capacity_Wh: z.number().gt(0).max(1e6).optional(),
  cable: z
    .strictObject({ length_m: z.number().min(0).max(5000), area_mm2: z.number().gt(0).max(1000) })
    .optional(),
});
export type Supply = z.infer<typeof supply>;
