import { z } from 'zod';
import { angle_deg, colourTemperature_K, id, name, point_m, size_m, stops } from './primitives.ts';

export const camera = z
  .strictObject({
    id,
    name: name.optional(),
    position_m: point_m,
    look_m: point_m,
    roll_deg: angle_deg.optional(),
    sensor_mm: z.tuple([z.number().min(1).max(300), z.number().min(1).max(300)]),
    aspect: z.number().min(0.2).max(10).optional(),
    focal_mm: z.number().min(1).max(5000),
    fNumber: z.number().min(0.5).max(256),
    shutter_s: z.number().min(1e-6).max(3600),
    iso: z.number().min(1).max(10_000_000),
    nd_stops: stops.optional(),
    loss_stops: stops.optional(),
    whiteBalance_K: colourTemperature_K.optional(),
    focus_m: size_m.optional(),
  })
  .refine((c) => Math.hypot(...c.look_m.map((v, i) => v - c.position_m[i]!)) > 1e-6, {
    error: 'a look point away from the camera itself',
    path: ['look_m'],
  });
export type Camera = z.infer<typeof camera>;
