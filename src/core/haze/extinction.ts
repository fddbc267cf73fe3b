/**
 * Koschmieder's law (1924): a black object fades to the contrast ε at the visual range V, so σ_t = ln(1/ε)/V.
 * Meteorological visibility takes ε = 0.02: σ_t = 3.912/V. (Optical range takes 0.05: 3.0/V. Ours is the former.)
 * Over a path d the straight light is T = exp(−σ_t·d) (Bouguer, Lambert, Beer).
 */
const LN_50 = Math.log(50);

/** Extinction coefficient in 1/m from the meteorological visibility (2 % contrast) in metres. */
export function extinction_per_m(visibility_m: number): number {
  return LN_50 / visibility_m;
}

/** What haze over a path takes from straight light, in stops (positive). */
export function hazeLoss_stops(extinction: number, distance_m: number): number {
  return extinction * distance_m * Math.LOG2E;
}
