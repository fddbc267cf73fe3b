/** Degrees are for files and screens, radians for formulas; these two are the only crossing. */
export function radiansFromDegrees(angle_deg: number): number {
  return (angle_deg * Math.PI) / 180;
}

export function degreesFromRadians(angle_rad: number): number {
  return (angle_rad * 180) / Math.PI;
}
