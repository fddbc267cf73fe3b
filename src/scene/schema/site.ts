import { z } from 'zod';
import { colourTemperature_K, id, name, planPoint_m } from './primitives.ts';

const keepOut = z.strictObject({
  id,
  name: name.optional(),
  outline_m: z.array(planPoint_m).min(3).max(200),
});

const windSpeed_m_s = z.number().min(0).max(60);

/** What the place brings: its mains, its sky, its wind, where on Earth and when, and where nothing may stand. */
export const site = z.strictObject({
  mains: z
    .strictObject({
      volts: z.number().min(50).max(1000),
      hertz: z.union([z.literal(50), z.literal(60)], { error: '50 or 60' }),
    })
    .optional(),
  sky: z
    .strictObject({ illuminance_lx: z.number().min(0).max(200_000), cct_K: colourTemperature_K.optional() })
    .optional(),
  /** At the height of the lamps: the steady wind to reckon with and the strongest gusts. */
  wind: z
    .strictObject({ speed_m_s: windSpeed_m_s, gust_m_s: windSpeed_m_s.optional() })
    .refine((w) => w.gust_m_s === undefined || w.gust_m_s >= w.speed_m_s, {
      error: 'gusts at least as strong as the steady wind',
      path: ['gust_m_s'],
    })
    .optional(),
  place: z
    .strictObject({
      latitude_deg: z.number().min(-90).max(90),
      longitude_deg: z.number().min(-180).max(180),
      start: z.iso.datetime({ offset: true }),
    })
    .optional(),
  keepOut: z.array(keepOut).max(100).optional(),
});
export type Site = z.infer<typeof site>;
