/**
 * Half-planes (type C) or planes (types A and B) of a goniometer, and the symmetries by which a file leaves some
 * of them out.
 */
export interface PhotometricPlane {
  readonly horizontal_deg: number;
  /** One value a vertical angle. Planes that mirror each other share it. */
  readonly candela: Float64Array;
}

/** The planes and their mirror images about one of them, in order of angle. */
export function mirrored(planes: readonly PhotometricPlane[], about_deg: number): PhotometricPlane[] {
  const images = planes
    .filter((plane) => plane.horizontal_deg !== about_deg)
    .map((plane) => ({ horizontal_deg: 2 * about_deg - plane.horizontal_deg, candela: plane.candela }));
  return [...planes, ...images].sort(byAngle);
}

/**
 * Planes of a whole turn, brought to 0…360 with a plane at both ends, so that interpolation never meets a seam.
 * Without a plane at 0 the one put there is interpolated, which leaves the linear interpolant as it was.
 */
export function closedCircle(planes: readonly PhotometricPlane[]): PhotometricPlane[] {
  const turned = planes.map((plane) => ({ ...plane, horizontal_deg: turnedWithin360(plane.horizontal_deg) }));
  const circle = turned
    .sort(byAngle)
    .filter((plane, i) => i === 0 || plane.horizontal_deg !== turned[i - 1]!.horizontal_deg);
  const [first, last] = [circle[0]!, circle[circle.length - 1]!];
  const startsAtSeam = first.horizontal_deg === 0;
  const endsAtSeam = last.horizontal_deg === 360;
  if (startsAtSeam && endsAtSeam) return circle;
  const seam = startsAtSeam ? first.candela : endsAtSeam ? last.candela : betweenLastAndFirst(last, first);
  return [
    ...(startsAtSeam ? [] : [{ horizontal_deg: 0, candela: seam }]),
    ...circle,
    ...(endsAtSeam ? [] : [{ horizontal_deg: 360, candela: seam }]),
  ];
}

/** Says so where the planes of a whole turn leave a wide sector out, across which the light is interpolated. */
export function gapWarning(planes: readonly PhotometricPlane[]): string[] {
  const last = planes[planes.length - 1]!.horizontal_deg;
  const step = planes[1]!.horizontal_deg - planes[0]!.horizontal_deg;
  if (360 - last <= 2 * step) return [];
  return [`no plane between horizontal angles ${last} and 360: interpolated across the gap`];
}

function byAngle(p: PhotometricPlane, q: PhotometricPlane): number {
  return p.horizontal_deg - q.horizontal_deg;
}

function turnedWithin360(angle_deg: number): number {
  if (angle_deg < 0) return angle_deg + 360;
  return angle_deg > 360 ? angle_deg - 360 : angle_deg;
}

function betweenLastAndFirst(last: PhotometricPlane, first: PhotometricPlane): Float64Array {
  const toSeam = 360 - last.horizontal_deg;
  const s = toSeam / (toSeam + first.horizontal_deg);
  return last.candela.map((candela, v) => candela * (1 - s) + first.candela[v]! * s);
}
