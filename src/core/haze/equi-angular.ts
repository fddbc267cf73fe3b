/**
 * Equi-angular sampling of a distance along a ray (Kulla & Fajardo 2012): even in the angle under which a light is seen
 * from the ray, so that the 1/d² of the light cancels. With the light's foot at distance t₀ along the ray and h off it,
 * angles run from atan((a − t₀)/h) to atan((b − t₀)/h), and pdf(t) = h/((θ_b − θ_a)·(h² + (t − t₀)²)).
 */
export interface EquiAngular {
  t: number;
  pdf: number;
}

/** h is kept above this, so that a ray through the light itself stays finite. */
const LEAST_OFFSET_m = 1e-4;

export function sampleEquiAngular(
  foot_m: number,
  offset_m: number,
  from_m: number,
  to_m: number,
  u: number,
  sample: EquiAngular,
): void {
  const h = Math.max(offset_m, LEAST_OFFSET_m);
  const start = Math.atan((from_m - foot_m) / h);
  const end = Math.atan((to_m - foot_m) / h);
  const across = h * Math.tan(start + u * (end - start));
  sample.t = Math.min(to_m, Math.max(from_m, foot_m + across));
  sample.pdf = h / ((end - start) * (h * h + across * across));
}

/** The density with which `sampleEquiAngular` draws t from the same stretch; 0 outside it. */
export function equiAngularPdf(
  foot_m: number,
  offset_m: number,
  from_m: number,
  to_m: number,
  t: number,
): number {
  if (t < from_m || t > to_m) return 0;
  const h = Math.max(offset_m, LEAST_OFFSET_m);
  const span = Math.atan((to_m - foot_m) / h) - Math.atan((from_m - foot_m) / h);
  return h / (span * (h * h + (t - foot_m) * (t - foot_m)));
}
