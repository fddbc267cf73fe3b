/**
 * Half-width of the 95 % interval of a mean, from a few independent estimates of it (Student's t).
 * t by the Cornish–Fisher expansion in 1/ν (Abramowitz & Stegun 26.7.5), good to 0.3 % from ν = 5.
 */
export function confidence95(estimates: ArrayLike<number>): number {
  const n = estimates.length;
  if (n < 2) return Number.POSITIVE_INFINITY;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += estimates[i]! / n;
  let squares = 0;
  for (let i = 0; i < n; i++) squares += (estimates[i]! - mean) ** 2;
  return studentT95(n - 1) * Math.sqrt(squares / (n - 1) / n);
}

/** Two-sided 95 % quantile of Student's t with ν ≥ 1 degrees of freedom. */
export function studentT95(nu: number): number {
  const z = 1.959964;
  return (
    z +
    (z ** 3 + z) / (4 * nu) +
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * nu ** 2) +
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / (384 * nu ** 3)
  );
}
