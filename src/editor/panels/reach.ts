import type { SceneDocument } from '../../scene/schema/document.ts';

/** How far the sliders go: around everything that light is planned for, in whole steps so that they keep still. */
export interface Reach {
  readonly from_m: readonly [number, number, number];
  readonly to_m: readonly [number, number, number];
}

const STEP_m = 10;
const ROOM_m = 5;
const LEAST_HEIGHT_m = 6;

export function reachOf(document: SceneDocument | undefined): Reach {
  const points = [
    ...(document?.marks ?? []).map((mark) => mark.position_m),
    ...(document?.cameras ?? []).map((camera) => camera.position_m),
    ...(document?.lamps ?? []).flatMap((lamp) => [lamp.position_m, lamp.aim_m]),
  ];
  const along = (axis: 0 | 1 | 2, sign: 1 | -1) =>
    points.reduce((far, point) => Math.max(far, sign * point[axis]), 0);
  const outward = (axis: 0 | 2, sign: 1 | -1) => Math.ceil((along(axis, sign) + ROOM_m) / STEP_m) * STEP_m;
  const lowest_m = Math.floor(-along(1, -1));
  const highest_m = Math.max(LEAST_HEIGHT_m, Math.ceil(along(1, 1) / 2) * 2);
  return {
    from_m: [-outward(0, -1), lowest_m, -outward(2, -1)],
    to_m: [outward(0, 1), highest_m, outward(2, 1)],
  };
}
