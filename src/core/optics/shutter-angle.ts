/**
 * Shutter angle and frame rate: t = α/(360·r), where a full turn of the shutter is one frame. Defined by the rotating
 * shutter; electronic shutters keep the words.
 */
import { positive } from '../units/quantity.ts';

export const FULL_TURN_deg = 360;

/** Shutter time in seconds. RangeError for an angle that is not between 0 and 360. */
export function shutterOfAngle_s(angle_deg: number, rate_fps: number): number {
  if (positive(angle_deg, 'shutter angle in degrees') > FULL_TURN_deg)
    throw new RangeError(`shutter angle is ${angle_deg}°; it must be at most 360°`);
  return angle_deg / (FULL_TURN_deg * positive(rate_fps, 'frame rate in frames per second'));
}

/** Over 360 where the shutter is open longer than a frame lasts: no camera can film with that. */
export function angleOfShutter_deg(shutter_s: number, rate_fps: number): number {
  return (
    FULL_TURN_deg *
    positive(shutter_s, 'shutter time in seconds') *
    positive(rate_fps, 'frame rate in frames per second')
  );
}
