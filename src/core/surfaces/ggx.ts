/**
 * The GGX (Trowbridge–Reitz) surface of microscopic mirrors: how their normals spread, which of them are seen, and how
 * to draw the seen ones. Local coordinates: z along the surface normal, directions are unit vectors away from it.
 *
 *   D(h) = α²/(π(α²cos²θ_h + sin²θ_h)²), sin²θ_h = h_x² + h_y², which keeps its digits where 1 − cos² has none left
 *   r(c) = √(c² + α²(1 − c²)), so that Smith's Λ = (r/c − 1)/2 and G₁ = 2c/(c + r), without tan or division by zero
 *   G₂(i, o) = 1/(1 + Λ_i + Λ_o) = 2c_i·c_o/(c_o·r_i + c_i·r_o), masking and shadowing correlated by height
 *   visible normals D_o(h) = G₁(o)·max(0, o·h)·D(h)/c_o, hence the density of i = reflection of o in h is
 *   D_o(h)/(4·o·h) = D(h)/(2(c_o + r_o))
 *
 * Sources: B. Walter et al., Microfacet models for refraction, EGSR 2007 (D, Λ); E. Heitz, Understanding the
 * masking-shadowing function, JCGT 3(2) 2014 (G₂); E. Heitz, Sampling the GGX distribution of visible normals,
 * JCGT 7(4) 2018 (D_o); J. Dupuy & A. Benyoub, Sampling visible GGX normals with spherical caps, 2023 (how to draw it).
 * α = roughness². One bounce between the mirrors only: what further bounces would bring back is lost, of diffuse light on
 * a perfect reflector 0.04 % at α = 0.01, 2.3 % at 0.09, 20 % at 0.36, 59 % at 1.
 */

/**
 * Floor of α, reached at a roughness of 0.032. It keeps D below 4e5, so that products stay far from the limits of
 * single precision in a shader and the relative error of D in double precision below 1e-9 up to 89.99°. A reflected beam
 * is then 0.15° wide at half its height: mirror images of lamps narrower than that come out dimmer than in a true mirror.
 */
export const ALPHA_MIN = 1e-3;

/** Width of the spread of microscopic slopes for a material's roughness 0..1. */
export function alphaOfRoughness(roughness: number): number {
  return Math.max(ALPHA_MIN, roughness * roughness);
}

/** D(h), 1/sr, for a unit half vector on the +z side. */
export function normalDensity(alpha: number, hx: number, hy: number, hz: number): number {
  const a2 = alpha * alpha;
  const d = a2 * hz * hz + hx * hx + hy * hy;
  return a2 / (Math.PI * d * d);
}

/** r(c) of the equations above; c for a mirror, α at grazing. */
export function smithRoot(alpha: number, cosTheta: number): number {
  const c2 = cosTheta * cosTheta;
  return Math.sqrt(c2 + alpha * alpha * (1 - c2));
}

/** G₂/(4·c_i·c_o), the factor that turns D·F into the reflection of the surface; both cosines above zero. */
export function visibility(alpha: number, cosI: number, cosO: number): number {
  return 0.5 / (cosO * smithRoot(alpha, cosI) + cosI * smithRoot(alpha, cosO));
}

/** G₂/G₁(o): of the light that a visible mirror sends to i, the part that no other mirror stops. */
export function unshadowed(alpha: number, cosI: number, cosO: number): number {
  const rootO = smithRoot(alpha, cosO);
  return (cosI * (cosO + rootO)) / (cosO * smithRoot(alpha, cosI) + cosI * rootO);
}

/**
 * Density over solid angle, 1/sr, of the reflection of o in a visible normal, for the unit half vector of the two. Over
 * the whole sphere it integrates to 1; reflections below the surface are part of that.
 */
export function reflectionDensity(alpha: number, hx: number, hy: number, hz: number, cosO: number): number {
  return normalDensity(alpha, hx, hy, hz) / (2 * (cosO + smithRoot(alpha, cosO)));
}

/**
 * Writes the unit normal of a mirror that is seen from o (o_z ≥ 0), distributed as D_o.
 *
 * Squeezed by α the mirrors become a hemisphere, and o squeezed alike sees it reflect into a cap of directions c, evenly:
 * c_z is uniform between −o_z and 1. The normal is c + o, stretched back.
 * @param u 0 ≤ u < 1, how far down the cap
 * @param cosPhi cosine and sine of an angle uniform over the turn
 */
export function visibleNormal(
  alpha: number,
  ox: number,
  oy: number,
  oz: number,
  u: number,
  cosPhi: number,
  sinPhi: number,
  normal: Float64Array,
): void {
  const ax = alpha * ox;
  const ay = alpha * oy;
  const squeeze = 1 / Math.sqrt(ax * ax + ay * ay + oz * oz);
  const sz = oz * squeeze;
  const cz = 1 - (1 + sz) * u;
  const rim = Math.sqrt(Math.max(0, 1 - cz * cz));
  const hx = alpha * (rim * cosPhi + ax * squeeze);
  const hy = alpha * (rim * sinPhi + ay * squeeze);
  // c_z + o_z, without the cancellation at the foot of the cap.
  const hz = (1 + sz) * (1 - u);
  const scale = 1 / Math.sqrt(hx * hx + hy * hy + hz * hz);
  normal[0] = hx * scale;
  normal[1] = hy * scale;
  normal[2] = hz * scale;
}
