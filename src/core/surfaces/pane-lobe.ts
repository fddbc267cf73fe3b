/**
 * How a pane scatters: around the straight direction, p(δ) = (m + 1)/(2π)·cos^m δ for δ < 90°, per steradian, with m such
 * that p has fallen to half at half the pane's spread: m = ln ½ / ln cos(spread/2).
 *
 * As a transmission function f(i → o), with f·cos θ_o the share sent per steradian, it must be symmetric and may never
 * send on more than it gets. We take f = scattered·N·p(δ)/√(cos θ_i·cos θ_o), N making normal incidence exact, divided by
 * the larger of the two totals where oblique light would exceed 1. Model of our own; no source for the shape.
 */
export interface PaneLobe {
  readonly exponent: number;
  readonly normalisation: number;
  /** max(1, ∫f·cos θ_o dω_o) for scattered = 1, from cos θ_i = (k/length)² up. */
  readonly excess: Float64Array;
}

const NODES = 64;

export function paneLobe(spread_deg: number): PaneLobe {
  const half = Math.min(89.9, spread_deg / 2);
  const exponent = Math.log(0.5) / Math.log(Math.cos((half * Math.PI) / 180));
  // ∫ p·√cos θ dω over the hemisphere at normal incidence = (m + 1)/(m + 1.5).
  const normalisation = (exponent + 1.5) / (exponent + 1);
  const plain: PaneLobe = { exponent, normalisation, excess: new Float64Array(NODES).fill(1) };
  const excess = Float64Array.from({ length: NODES }, (_, k) =>
    Math.max(1, totalSent(plain, (Math.max(k, 0.25) / NODES) ** 2)),
  );
  return { exponent, normalisation, excess };
}

/** p(δ), per steradian. */
export function lobeDensity(lobe: PaneLobe, cosDelta: number): number {
  if (cosDelta <= 0) return 0;
  return ((lobe.exponent + 1) / (2 * Math.PI)) * cosDelta ** lobe.exponent;
}

/** cos δ drawn from the lobe. */
export function sampleLobe(lobe: PaneLobe, u: number): number {
  return (1 - u) ** (1 / (lobe.exponent + 1));
}

/** f for scattered = 1; cosines are of the angles to the pane's normal, both positive. */
export function lobeTransmission(lobe: PaneLobe, cosIn: number, cosOut: number, cosDelta: number): number {
  const excess = Math.max(excessAt(lobe, cosIn), excessAt(lobe, cosOut));
  return (lobe.normalisation * lobeDensity(lobe, cosDelta)) / Math.sqrt(cosIn * cosOut) / excess;
}

/**
 * Weight of a path that was turned by `sampleLobe` (f·cos θ_next over the density, for scattered = 1). Seen backwards: the
 * path left at `cosOut` and comes from `cosIn`.
 */
export function scatteredWeight(lobe: PaneLobe, cosIn: number, cosOut: number): number {
  const excess = Math.max(excessAt(lobe, cosIn), excessAt(lobe, cosOut));
  return (lobe.normalisation * Math.sqrt(cosIn / cosOut)) / excess;
}

function excessAt(lobe: PaneLobe, cosine: number): number {
  return lobe.excess[Math.min(NODES - 1, Math.floor(Math.sqrt(cosine) * NODES))]!;
}

/**
 * ∫ f·cos θ_o dω_o for light arriving at cos θ_i, before the excess is taken off: the mean of N·√(cos θ_o/cos θ_i) over
 * directions drawn from the lobe, by even steps of its share and of the angle round it.
 */
function totalSent(lobe: PaneLobe, cosIn: number): number {
  const n = 96;
  const sinIn = Math.sqrt(1 - cosIn * cosIn);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const cosDelta = sampleLobe(lobe, (i + 0.5) / n);
    const sinDelta = Math.sqrt(1 - cosDelta * cosDelta);
    for (let j = 0; j < n; j++) {
      const cosOut = cosIn * cosDelta + sinIn * sinDelta * Math.cos((Math.PI * (j + 0.5)) / n);
      if (cosOut > 0) sum += Math.sqrt(cosOut / cosIn);
    }
  }
  return (lobe.normalisation * sum) / (n * n);
}
