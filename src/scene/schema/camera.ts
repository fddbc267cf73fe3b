import { z } from 'zod';
import { SUM_TOLERANCE } from '../../core/monochrome/channel-mix.ts';
import { CONTRAST_FILTERS } from '../../core/monochrome/contrast-filter.ts';
import { HUES, MOST_HUE_STOPS } from '../../core/monochrome/hue-curve.ts';
import { angle_deg, colourTemperature_K, id, name, point_m, size_m, stops } from './primitives.ts';

const weight = z.number().min(-3).max(3);
const hueStops = z.number().min(-MOST_HUE_STOPS).max(MOST_HUE_STOPS).optional();

/** A monochrome picture, by weights of linear red, green and blue, a contrast filter, or stops by hue: one of the three. */
const monochrome = z
  .strictObject({
    weights: z
      .tuple([weight, weight, weight])
      .refine((w) => Math.abs(w[0] + w[1] + w[2] - 1) <= SUM_TOLERANCE + 1e-9, {
        error: 'three weights that add up to 1, so that a neutral keeps its brightness',
      })
      .optional(),
    filter: z.enum(CONTRAST_FILTERS).optional(),
    hues: z
      .strictObject(Object.fromEntries(Object.keys(HUES).map((hue) => [hue, hueStops])) as HueFields)
      .optional(),
  })
  .refine((m) => Object.values(m).filter((way) => way !== undefined).length === 1, {
    error: 'one of "weights", "filter" and "hues"',
  });
type HueFields = Readonly<Record<keyof typeof HUES, typeof hueStops>>;
export type Monochrome = z.infer<typeof monochrome>;

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
    monochrome: monochrome.optional(),
  })
  .refine((c) => Math.hypot(...c.look_m.map((v, i) => v - c.position_m[i]!)) > 1e-6, {
    error: 'a look point away from the camera itself',
    path: ['look_m'],
  });
export type Camera = z.infer<typeof camera>;
