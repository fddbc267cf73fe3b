import { z } from 'zod';
import { id, name, notes } from './primitives.ts';

/**
 * A named set of changes over the base: for each thing, by id, a JSON merge patch (RFC 7396: fields replace, null
 * removes, lists are replaced whole). `haze`, `site` and `calibration` may be changed by those words.
 */
export const setup = z.strictObject({
  id,
  name: name.optional(),
  notes: notes.optional(),
  changes: z.record(id, z.record(z.string().max(64), z.unknown())),
});
export type Setup = z.infer<typeof setup>;
