/**
 * Fresnel's equations: the share of light that a smooth interface reflects, exact, for each polarisation.
 *
 * Dielectric, c = cos θ on the side the light comes from, n = index beyond / index before, g = √(n² − 1 + c²):
 *   Rs = ((c − g)/(c + g))²,  Rp = ((n²c − g)/(n²c + g))²;  g² ≤ 0 is total reflection (only for n < 1, from inside).
 * Conductor with complex index n + ik (k ≥ 0 absorbs) in air, s² = 1 − c², q = √((n² − k² − s²)² + 4n²k²),
 * a = √((q + n² − k² − s²)/2):
 *   Rs = (q − 2ac + c²)/(q + 2ac + c²),  Rp = Rs·(qc² − 2acs² + s⁴)/(qc² + 2acs² + s⁴).
 * Source: M. Born & E. Wolf, Principles of Optics, 1.5 and 14.2 (form of the conductor equations from memory of
 * R. Siegel & J. Howell, Thermal Radiation Heat Transfer). Unpolarised light: R = (Rs + Rp)/2.
 *
 * Valid for plane, clean interfaces with 0 ≤ c ≤ 1. Schlick's approximation is not used: for n = 1.5 it is up to 0.036
 * too high and 23 % too low near Brewster's angle.
 */
export interface PolarisedReflectance {
  /** Electric field across the plane of incidence. */
  readonly s: number;
  /** Electric field in the plane of incidence: what a polariser in front of a lens can leave of a mirror image. */
  readonly p: number;
}

/** Unpolarised reflectance of a dielectric interface; n is the index beyond divided by the index before. */
export function dielectricReflectance(cosTheta: number, n: number): number {
  const g2 = n * n - 1 + cosTheta * cosTheta;
  if (g2 <= 0) return 1;
  const g = Math.sqrt(g2);
  const s = (cosTheta - g) / (cosTheta + g);
  const p = (n * n * cosTheta - g) / (n * n * cosTheta + g);
  return 0.5 * (s * s + p * p);
}

/** Rs and Rp of a dielectric interface; n is the index beyond divided by the index before. */
export function dielectricPolarised(cosTheta: number, n: number): PolarisedReflectance {
  const g2 = n * n - 1 + cosTheta * cosTheta;
  if (g2 <= 0) return { s: 1, p: 1 };
  const g = Math.sqrt(g2);
  return {
    s: ((cosTheta - g) / (cosTheta + g)) ** 2,
    p: ((n * n * cosTheta - g) / (n * n * cosTheta + g)) ** 2,
  };
}

/** Unpolarised reflectance of a bare metal of index n + ik in air. */
export function conductorReflectance(cosTheta: number, n: number, k: number): number {
  const c2 = cosTheta * cosTheta;
  const s2 = 1 - c2;
  const t = n * n - k * k - s2;
  const q = Math.sqrt(t * t + 4 * n * n * k * k);
  const twoAC = Math.sqrt(Math.max(0, 2 * (q + t))) * cosTheta;
  const s = (q - twoAC + c2) / (q + twoAC + c2);
  const p = (q * c2 - twoAC * s2 + s2 * s2) / (q * c2 + twoAC * s2 + s2 * s2);
  return 0.5 * s * (1 + p);
}

/** Rs and Rp of a bare metal of index n + ik in air. */
export function conductorPolarised(cosTheta: number, n: number, k: number): PolarisedReflectance {
  const c2 = cosTheta * cosTheta;
  const s2 = 1 - c2;
  const t = n * n - k * k - s2;
  const q = Math.sqrt(t * t + 4 * n * n * k * k);
  const twoAC = Math.sqrt(Math.max(0, 2 * (q + t))) * cosTheta;
  const s = (q - twoAC + c2) / (q + twoAC + c2);
  const p = (q * c2 - twoAC * s2 + s2 * s2) / (q * c2 + twoAC * s2 + s2 * s2);
  return { s, p: s * p };
}

/**
 * Reflectance of a clear sheet whose two faces each reflect R, all the passes between them added up without
 * interference (thick glass in lamp light): 2R/(1 + R). For unpolarised light apply it to Rs and Rp and take the mean.
 */
export function sheetReflectance(faceReflectance: number): number {
  return (2 * faceReflectance) / (1 + faceReflectance);
}
