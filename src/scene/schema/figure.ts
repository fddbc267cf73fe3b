import { z } from 'zod';
import { angle_deg, id, name, point_m } from './primitives.ts';

export const POSES = ['standing', 'sitting', 'leaning', 'walking'] as const;

/** A person: heading 0 looks along +z, 90 along +x. Skin and clothes are materials. */
export const figure = z.strictObject({
  id,
  name: name.optional(),
  position_m: point_m,
  heading_deg: angle_deg.optional(),
  pose: z.enum(POSES).optional(),
  height_m: z.number().min(0.3).max(3).optional(),
  skin: id.optional(),
  upper: id.optional(),
  lower: id.optional(),
});
export type Figure = z.infer<typeof figure>;
