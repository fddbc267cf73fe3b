/**
 * Output of a lamp that burns brighter or dimmer when its housing is tilted (LM-63 TILT=INCLUDE): a table of
 * factors over the tilt angle, linear in between.
 */
export interface LampTilt {
  /** The lamp with the luminaire aimed straight down: 1 upright; 2 level, and stays so in the tilt; 3 level, tilts. */
  readonly geometry: 1 | 2 | 3;
  /** Increasing, from vertical. */
  readonly angles_deg: Float64Array;
  readonly factors: Float64Array;
}

/** Factor on all candela when the luminaire is tilted by `angle_deg`; beyond the table its end value holds. */
export function tiltFactor(tilt: LampTilt, angle_deg: number): number {
  const { angles_deg, factors } = tilt;
  const x = Math.abs(angle_deg);
  const last = angles_deg.length - 1;
  if (x <= angles_deg[0]!) return factors[0]!;
  for (let i = 1; i <= last; i++) {
    if (x > angles_deg[i]!) continue;
    const s = (x - angles_deg[i - 1]!) / (angles_deg[i]! - angles_deg[i - 1]!);
    return factors[i - 1]! * (1 - s) + factors[i]! * s;
  }
  return factors[last]!;
}
