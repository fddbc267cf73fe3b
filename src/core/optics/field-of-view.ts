/**
 * What a lens takes in: full angle of view = 2·atan(extent/2f), rectilinear lens focused at infinity.
 * Known error: focusing close narrows the view by the magnification (1 % at a hundredth life size).
 */
import { degreesFromRadians } from '../math/angle.ts';
import { positive } from '../units/quantity.ts';

export interface FieldOfView {
  readonly horizontal_deg: number;
  readonly vertical_deg: number;
  readonly diagonal_deg: number;
}

/** Full angle across `extent_mm` of the sensor. RangeError unless both are above zero. */
export function angleOfView_deg(extent_mm: number, focal_mm: number): number {
  const half = positive(extent_mm, 'sensor extent in mm') / (2 * positive(focal_mm, 'focal length in mm'));
  return degreesFromRadians(2 * Math.atan(half));
}

/** The largest part of the sensor, [width, height], that has the aspect width/height. RangeError unless all are above zero. */
export function croppedSensor_mm(
  sensor_mm: readonly [number, number],
  aspect: number,
): readonly [number, number] {
  const [width, height] = [positive(sensor_mm[0], 'sensor width'), positive(sensor_mm[1], 'sensor height')];
  const wanted = positive(aspect, 'frame aspect');
  return wanted > width / height ? [width, width / wanted] : [height * wanted, height];
}

/** The frame's angles of view, the sensor cropped to the aspect. */
export function fieldOfView(
  sensor_mm: readonly [number, number],
  aspect: number,
  focal_mm: number,
): FieldOfView {
  const [width, height] = croppedSensor_mm(sensor_mm, aspect);
  return {
    horizontal_deg: angleOfView_deg(width, focal_mm),
    vertical_deg: angleOfView_deg(height, focal_mm),
    diagonal_deg: angleOfView_deg(Math.hypot(width, height), focal_mm),
  };
}

/** How much of a plane square to the axis lies across `extent_mm` of the sensor: extent·d/f, the same approximation. */
export function coverage_m(extent_mm: number, focal_mm: number, distance_m: number): number {
  const perMetre = positive(extent_mm, 'sensor extent in mm') / positive(focal_mm, 'focal length in mm');
  return perMetre * positive(distance_m, 'distance in m');
}
