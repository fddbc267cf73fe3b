import { z } from 'zod';
import { id, name, point_m } from './primitives.ts';

/** A passer-by who is not one of the figures. */
export const WALKER = 'walker';

/** A move: of a figure, a lamp, a camera, or of a walker. Straight between points, times rising. */
export const path = z.strictObject({
  id,
  name: name.optional(),
  of: id,
  points: z
    .array(z.strictObject({ t_s: z.number().min(0).max(86_400), position_m: point_m }))
    .min(2)
    .max(1000)
    .refine((points) => points.every((p, i) => i === 0 || p.t_s > points[i - 1]!.t_s), {
      error: 'times in rising order',
    }),
});
export type Path = z.infer<typeof path>;
