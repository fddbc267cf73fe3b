/**
 * How far something runs across the picture while the shutter is open: (v·t·f/d)·(n/w) pixels, with v the speed across the
 * line of sight, d the distance along the camera's axis, w and n the picture's width in millimetres and in pixels.
 * Geometric optics; near the middle of the frame, and for speeds small against d/t.
 */
import { nonNegative, positive } from '../units/quantity.ts';

export interface SeenMove {
  readonly speed_m_per_s: number;
  readonly distance_m: number;
  readonly focal_mm: number;
  readonly frameWidth_mm: number;
  readonly frameWidth_px: number;
}

export function motionBlur_px(move: SeenMove, shutter_s: number): number {
  const { focal_mm, frameWidth_mm, frameWidth_px, distance_m } = move;
  const scale = positive(focal_mm, 'focal length in mm') / positive(distance_m, 'distance in m');
  const pixels_per_mm =
    positive(frameWidth_px, 'frame width in pixels') / positive(frameWidth_mm, 'frame width in mm');
  return (
    nonNegative(move.speed_m_per_s, 'speed in m/s') *
    positive(shutter_s, 'shutter time in seconds') *
    scale *
    pixels_per_mm
  );
}

/** The shutter that keeps the blur to so many pixels, and what that costs in stops (negative: less light). */
export function shutterForBlur(
  blur_px: number,
  shutter_s: number,
  wanted_px: number,
): { readonly shutter_s: number; readonly stops: number } {
  const share = positive(wanted_px, 'wanted blur in pixels') / positive(blur_px, 'blur in pixels');
  return { shutter_s: positive(shutter_s, 'shutter time in seconds') * share, stops: Math.log2(share) };
}
