import { z } from 'zod';
import { fileName, id, name, point_m, rotation_deg, size_m } from './primitives.ts';

/** The fields that every solid has, in the order in which they are saved. */
const placed = <S extends string>(shape: S) => ({
  id,
  name: name.optional(),
  shape: z.literal(shape),
  position_m: point_m,
  rotation_deg: rotation_deg.optional(),
});
const made = <S extends string>(shape: S) => ({ ...placed(shape), material: id });
const sheetSize_m = z.tuple([size_m, size_m]);

/** A hole in a panel, measured from the panel's lower left corner as seen from the front. */
const opening = z.strictObject({
  left_m: z.number().min(0).max(10_000),
  bottom_m: z.number().min(0).max(10_000),
  width_m: size_m,
  height_m: size_m,
});

const SIDES = ['right', 'left', 'front', 'back'] as const;
const run = {
  side: z.enum(SIDES),
  count: z.int().min(1).max(500),
  first_m: z.number().min(0).max(10_000),
  pitch_m: size_m.optional(),
  width_m: size_m,
  head_m: size_m,
};
/** Without a pane it is an open hole. */
const windowRun = z.strictObject({ ...run, sill_m: z.number().min(0).max(10_000), pane: id.optional() });
/** Down to the floor; closed unless `open`. */
const doorRun = z.strictObject({ ...run, open: z.boolean().optional() });

export const solid = z.discriminatedUnion('shape', [
  z.strictObject({ ...made('box'), size_m: z.tuple([size_m, size_m, size_m]) }),
  z.strictObject({ ...made('cylinder'), radius_m: size_m, height_m: size_m }),
  z.strictObject({ ...made('sphere'), radius_m: size_m }),
  z.strictObject({ ...made('capsule'), radius_m: size_m, length_m: size_m }),
  z.strictObject({
    ...made('panel'),
    size_m: sheetSize_m,
    openings: z.array(opening).max(500).optional(),
  }),
  z.strictObject({ ...placed('pane'), size_m: sheetSize_m, pane: id }),
  z.strictObject({
    ...made('vehicle'),
    size_m: z.tuple([size_m, size_m, size_m]),
    wall_m: size_m.optional(),
    roofRadius_m: z.number().min(0).max(100).optional(),
    inside: id.optional(),
    windows: z.array(windowRun).max(50).optional(),
    doors: z.array(doorRun).max(50).optional(),
  }),
  z.strictObject({ ...made('mesh'), file: fileName, scale: size_m.optional() }),
]);
export type Solid = z.infer<typeof solid>;
export type VehicleSolid = Extract<Solid, { shape: 'vehicle' }>;
