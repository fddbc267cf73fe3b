import { add, scale, type Vec3 } from '../math/vec3.ts';
import type { FigureSpec } from './figure.ts';
import { CHIN_HEIGHT, HEAD_RADIUS, skeleton, TORSO_RADIUS } from './figure-skeleton.ts';
import { placementFrom, worldDirection, worldPoint } from './placement.ts';

/** A point 5 cm off the skin or the clothes, and the direction out of the body there. */
export interface Landmark {
  readonly point_m: Vec3;
  readonly direction: Vec3;
}

export type LandmarkName = 'face' | 'leftCheek' | 'rightCheek' | 'crown' | 'chest' | 'back';

const OFF_SKIN_m = 0.05;
const CHEST_FROM_HIP = 0.19;

/** Where a meter would be held to this figure. Left and right are the figure's own. */
export function figureLandmarks(spec: FigureSpec): Readonly<Record<LandmarkName, Landmark>> {
  const frame = placementFrom(spec.position_m, [0, spec.heading_deg, 0]);
  const { headCentre, hipMiddle, torsoUp, torsoForward } = skeleton(spec.pose);
  const chest = add(hipMiddle, scale(torsoUp, CHEST_FROM_HIP));
  const off = (from: Vec3, outward: Vec3, depth: number): Landmark => ({
    point_m: worldPoint(
      frame,
      add(scale(from, spec.height_m), scale(outward, depth * spec.height_m + OFF_SKIN_m)),
    ),
    direction: worldDirection(frame, outward),
  });
  return {
    face: off(headCentre, [0, 0, 1], HEAD_RADIUS),
    leftCheek: off(headCentre, [1, 0, 0], HEAD_RADIUS),
    rightCheek: off(headCentre, [-1, 0, 0], HEAD_RADIUS),
    crown: off(headCentre, [0, 1, 0], (1 - CHIN_HEIGHT) / 2),
    chest: off(chest, torsoForward, TORSO_RADIUS),
    back: off(chest, scale(torsoForward, -1), TORSO_RADIUS),
  };
}
