import { placeInFrame, type ThinLens } from '../../core/camera/thin-lens.ts';
import { add, scale, type Vec3 } from '../../core/math/vec3.ts';

/**
 * How far a moving point runs across the picture while the shutter is open, pixels: its image half the shutter time later
 * less that half before, anywhere in the frame. On the axis this is the textbook formula of core/optics/motion-blur.ts.
 * Null where it passes the lens in that time.
 */
export function seenBlur_px(
  lens: ThinLens,
  point_m: Vec3,
  velocity_m_per_s: Vec3,
  shutter_s: number,
  frameWidth_px: number,
): number | null {
  const step = scale(velocity_m_per_s, shutter_s / 2);
  const before = placeInFrame(lens, add(point_m, scale(step, -1)));
  const after = placeInFrame(lens, add(point_m, step));
  if (!before || !after) return null;
  const frameHeight_px = (frameWidth_px * lens.halfHeight) / lens.halfWidth;
  return Math.hypot((after.u - before.u) * frameWidth_px, (after.v - before.v) * frameHeight_px);
}
