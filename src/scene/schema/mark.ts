import { z } from 'zod';
import { lamp } from './lamp.ts';
import { direction, id, KEBAB_CASE, name, point_m } from './primitives.ts';

export const LAMP_FACING = new RegExp(`^lamp:${KEBAB_CASE.source.slice(1)}`);

export const receptor = z.enum(['dome', 'flat']);

/** A place where the meter is held, and which way it points. */
export const mark = z.strictObject({
  id,
  name: name.optional(),
  position_m: point_m,
  facing: z
    .union([z.literal('camera'), z.string().max(80).regex(LAMP_FACING), direction], {
      error: '"camera", "lamp:<id of a lamp>" or a direction [x, y, z] that is not zero',
    })
    .optional(),
  receptor: receptor.optional(),
});
export type Mark = z.infer<typeof mark>;

const { position_m, aim_m, roll_deg, level, filters } = lamp.shape;

/** How a lamp of a reading stood when it was taken, where it has changed since. What is left out is as it is now. */
const takenLamp = z.strictObject({
  lamp: id,
  position_m: position_m.optional(),
  aim_m: aim_m.optional(),
  roll_deg,
  level,
  filters,
});
export type TakenLamp = z.infer<typeof takenLamp>;

/** A reading taken on the night: at a mark, with the named lamps alight and no others. */
export const reading = z.strictObject({
  id,
  name: name.optional(),
  mark: id,
  lamps: z.array(id).min(1).max(64),
  receptor: receptor.optional(),
  illuminance_lx: z.number().min(0).max(1e7),
  taken: z.array(takenLamp).max(64).optional(),
});
export type Reading = z.infer<typeof reading>;
