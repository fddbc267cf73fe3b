import { placeInFrame, type ThinLens } from '../camera/thin-lens.ts';
import { dot, subtract, type Vec3 } from '../math/vec3.ts';

export function inFrame(camera: ThinLens, point_m: Vec3): boolean {
  const place = placeInFrame(camera, point_m);
  return place !== null && place.u >= 0 && place.u <= 1 && place.v >= 0 && place.v <= 1;
}

/** False only where no point of a box (lowest x, y, z, then highest) is in frame. */
export function mayBeInFrame(camera: ThinLens, box_m: Float64Array): boolean {
  const { position_m, forward, right, up, halfWidth, halfHeight } = camera;
  let [left, rightOf, below, above, behind] = [0, 0, 0, 0, 0];
  for (let i = 0; i < 8; i++) {
    const corner: Vec3 = [box_m[i & 1 ? 3 : 0]!, box_m[i & 2 ? 4 : 1]!, box_m[i & 4 ? 5 : 2]!];
    const d = subtract(corner, position_m);
    const [depth, x, y] = [dot(d, forward), dot(d, right), dot(d, up)];
    if (x < -halfWidth * depth) left++;
    if (x > halfWidth * depth) rightOf++;
    if (y < -halfHeight * depth) below++;
    if (y > halfHeight * depth) above++;
    if (depth <= 0) behind++;
  }
  return [left, rightOf, below, above, behind].every((count) => count < 8);
}
