/**
 * What is sharp enough. With f the focal length, N the f-number, c the circle of confusion and s the focus distance:
 *   H = f²/(N·c) + f                    hyperfocal distance
 *   near = s·(H − f)/(H + s − 2f)       far = s·(H − f)/(H − s), infinite from s = H on
 *   blur at distance d = (f²/N)·|d − s|/(d·(s − f))
 * Exact for a thin lens whose pupil is f/N wide; distances from the lens, on its axis. Geometric optics; the limits in terms
 * of H with its "+ f" are exact, those with H = f²/(N·c) are not. A real lens that breathes or focuses inside departs most
 * when it is close.
 */
import { positive } from '../units/quantity.ts';

/** Common practice, no source: what looks sharp on a whole picture seen at arm's length. */
const DIAGONALS_PER_CIRCLE = 1500;

/** What a lens is set to; `circle_mm` is the largest blur that counts as sharp. */
export interface FocusSetting {
  readonly focal_mm: number;
  readonly fNumber: number;
  readonly circle_mm: number;
}

export interface SharpRange {
  readonly near_m: number;
  /** Infinity from the hyperfocal distance on. */
  readonly far_m: number;
}

/** The circle of confusion of a frame: its diagonal/1500. `frame_mm` is the sensor cropped to the picture. */
export function circleOfConfusion_mm(frame_mm: readonly [number, number]): number {
  return (
    Math.hypot(positive(frame_mm[0], 'frame width'), positive(frame_mm[1], 'frame height')) /
    DIAGONALS_PER_CIRCLE
  );
}

/** Width of the entrance pupil, f/N. */
export function pupil_mm(focal_mm: number, fNumber: number): number {
  return positive(focal_mm, 'focal length in mm') / positive(fNumber, 'f-number');
}

/** The nearest focus at which the far limit is infinite. */
export function hyperfocal_m({ focal_mm, fNumber, circle_mm }: FocusSetting): number {
  const f = positive(focal_mm, 'focal length in mm');
  const reach = (f * pupil_mm(f, fNumber)) / positive(circle_mm, 'circle of confusion in mm');
  return (reach + f) / 1000;
}

/** RangeError when the focus is not farther than the focal length, where a thin lens forms no image. */
export function sharpRange(setting: FocusSetting, focus_m: number): SharpRange {
  const f = setting.focal_mm / 1000;
  const H = hyperfocal_m(setting);
  const s = focusBeyond(focus_m, f);
  return {
    near_m: (s * (H - f)) / (H + s - 2 * f),
    far_m: s < H ? (s * (H - f)) / (H - s) : Number.POSITIVE_INFINITY,
  };
}

/** How wide a point at `distance_m` is drawn on the sensor. */
export function blurDisc_mm(focal_mm: number, fNumber: number, focus_m: number, distance_m: number): number {
  const f = positive(focal_mm, 'focal length in mm') / 1000;
  const s = focusBeyond(focus_m, f);
  const d = positive(distance_m, 'distance in m');
  return (focal_mm * pupil_mm(focal_mm, fNumber) * Math.abs(d - s)) / (d * (s - f)) / 1000;
}

function focusBeyond(focus_m: number, focal_m: number): number {
  if (positive(focus_m, 'focus distance in m') > focal_m) return focus_m;
  throw new RangeError(`focus distance is ${focus_m} m; it must be more than the focal length, ${focal_m} m`);
}
