import { radiansFromDegrees } from '../math/angle.ts';
import { add, cross, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';

/**
 * A lamp's own axes: a along the beam, r to the right and t to the top as seen from behind the lamp.
 * r = a × up with up = +y, or −z where a is within 0.1° of vertical; t = r × a; roll turns r and t clockwise as seen
 * from behind. So a lamp aimed straight down has r = +x and t = −z.
 */
export interface LampFrame {
  readonly origin_m: Vec3;
  readonly r: Vec3;
  readonly t: Vec3;
  readonly a: Vec3;
}

const SIN_NEAR_VERTICAL = Math.sin(radiansFromDegrees(0.1));

/** Frame of a lamp whose emitting face is centred at `position_m` and aimed at `aim_m`. The two must differ. */
export function lampFrame(position_m: Vec3, aim_m: Vec3, roll_deg = 0): LampFrame {
  const a = normalize(subtract(aim_m, position_m));
  const nearVertical = Math.hypot(a[0], a[2]) <= SIN_NEAR_VERTICAL;
  const right = normalize(cross(a, nearVertical ? [0, 0, -1] : [0, 1, 0]));
  const top = cross(right, a);
  const [c, s] = [Math.cos(radiansFromDegrees(roll_deg)), Math.sin(radiansFromDegrees(roll_deg))];
  return {
    origin_m: position_m,
    r: add(scale(right, c), scale(top, -s)),
    t: add(scale(top, c), scale(right, s)),
    a,
  };
}
