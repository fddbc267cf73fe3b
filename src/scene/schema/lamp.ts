import { z } from 'zod';
import { angle_deg, fraction, id, name, point_m, size_m } from './primitives.ts';

/** One head on its stand: the centre of its emitting face, where it is aimed, how bright, behind what. */
export const lamp = z
  .strictObject({
    id,
    name: name.optional(),
    head: id,
    position_m: point_m,
    aim_m: point_m,
    roll_deg: angle_deg.optional(),
    level: fraction.optional(),
    on: z.boolean().optional(),
    filters: z.array(id).max(12).optional(),
    /** Three legs. `sheltered`: no wind gets at it; if left out, so are stands within a vehicle and no others. */
    stand: z
      .strictObject({
        maxHeight_m: size_m,
        footRadius_m: size_m.optional(),
        mass_kg: z.number().min(0).max(5000).optional(),
        ballast_kg: z.number().min(0).max(5000).optional(),
        sheltered: z.boolean().optional(),
      })
      .optional(),
    supply: id.optional(),
    /** Of a three-phase supply; chosen to balance the phases if left out. */
    phase: z.union([z.literal(1), z.literal(2), z.literal(3)], { error: '1, 2 or 3' }).optional(),
  })
  .refine((l) => Math.hypot(...l.aim_m.map((v, i) => v - l.position_m[i]!)) > 1e-6, {
    error: 'an aim point away from the lamp itself',
    path: ['aim_m'],
  });
export type Lamp = z.infer<typeof lamp>;
