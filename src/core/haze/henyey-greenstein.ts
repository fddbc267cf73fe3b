/**
 * Phase function of Henyey & Greenstein (1941): p(θ) = (1 − g²)/(4π·(1 + g² − 2g·cos θ)^1.5), per steradian.
 * θ is measured from the direction of travel, so g > 0 scatters forward and backlit haze is bright. ∫p dω = 1 and the
 * mean of cos θ is g. Valid for −1 < g < 1; g = 0 is isotropic.
 */
export function henyeyGreenstein(g: number, cosTheta: number): number {
  const s = 1 + g * g - 2 * g * cosTheta;
  return (1 - g * g) / (4 * Math.PI * s * Math.sqrt(s));
}

/** cos θ drawn from the phase function by a number u of the unit interval: the inverse of its cumulative share. */
export function sampleHenyeyGreenstein(g: number, u: number): number {
  // The general form divides by g; below a thousandth the distribution is linear in cos θ to 1e-6.
  if (Math.abs(g) < 1e-3) return 1 - 2 * u + 6 * g * u * (1 - u);
  const s = (1 - g * g) / (1 - g + 2 * g * u);
  return (1 + g * g - s * s) / (2 * g);
}
