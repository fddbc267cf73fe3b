import { z } from 'zod';

/** The schema is never written out as program text to be run: the page's policy refuses that, and even the attempt. */
z.config({ jitless: true });

/**
 * The building blocks of the schema. Every range is a limit against slips and hostile files, wide enough that no real
 * set is refused: metres within 10 km of the datum, lists short enough to meter.
 */

export const KEBAB_CASE = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;

export const id = z.string().max(64).regex(KEBAB_CASE);

/** Text that people typed: shown as text, never as markup, and free of control characters that could drive a terminal. */
const NO_CONTROL_CHARACTERS = /^[^\p{Cc}\u2028\u2029]*$/u;
/** Notes may hold line breaks and tabs too. */
const ONLY_LINE_BREAKS = /^(?:[^\p{Cc}]|[\n\r\t])*$/u;
export const name = z.string().max(200).regex(NO_CONTROL_CHARACTERS);
export const notes = z.string().max(20_000).regex(ONLY_LINE_BREAKS);

/** A file beside the scene: a plain name, no folders, so that a scene can never reach elsewhere on a disk. */
export const fileName = z
  .string()
  .max(128)
  .regex(/^(?!\.)[^\p{Cc}/\\:]+$/u);

export const coordinate_m = z.number().min(-10_000).max(10_000);
export const point_m = z.tuple([coordinate_m, coordinate_m, coordinate_m]);
export const planPoint_m = z.tuple([coordinate_m, coordinate_m]);
export const direction = z
  .tuple([coordinate_m, coordinate_m, coordinate_m])
  .refine((d) => Math.hypot(...d) > 1e-9, { error: 'a direction that is not zero' });
export const angle_deg = z.number().min(-360).max(360);
export const rotation_deg = z.tuple([angle_deg, angle_deg, angle_deg]);
export const size_m = z.number().min(0.001).max(10_000);
export const fraction = z.number().min(0).max(1);
export const stops = z.number().min(0).max(30);
export const colourTemperature_K = z.number().min(1000).max(25_000);

/** Full angles. Half the light falls off within the front; the last tenth may wrap round behind, as a bare lantern's. */
export const beamAngle_deg = z.number().gt(0).max(180);
export const fieldAngle_deg = z.number().gt(0).lt(360);
