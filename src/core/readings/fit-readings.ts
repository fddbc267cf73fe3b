import { inverseOfSymmetric, quadraticForm, solveSymmetric } from './cholesky.ts';

/**
 * What readings on the night say about lamps and haze, by least squares in stops (maximum a posteriori with Gaussian
 * priors; Gauss & Newton, with steps halved until they help):
 *
 *   least  Σ_k ((log₂ M_k − log₂ E_k(x))/r)²  +  xᵀ·P⁻¹·x
 *   E_k = S_k + Σ_l 2^(x_l)·(D_kl + G_kl·2^h)·exp(−(σ − σ_p)·d_kl),   σ = σ_p·2^h
 *
 * x: each lamp's output over the plan, and last the haze's extinction over the plan, h, all in stops. M reading, S sky;
 * D light of lamp l that haze only takes from (straight and bounced), G the glow of haze in it, both as planned; d how
 * much of the way lies in haze. P is what the plan may be off by, r what a reading may be off by, all as ± in stops.
 *
 * The haze law is exact for straight light of a lamp that is small beside its distance; for the rest it is a slope, so
 * whoever fits computes D, G anew at the haze found, and fits again: `at_stops` says which haze they were computed at.
 */
export interface ReadingModel {
  readonly measured_lx: number;
  readonly sky_lx: number;
  readonly lamps: readonly LampInReading[];
}

export interface LampInReading {
  /** Index among the unknowns. */
  readonly lamp: number;
  readonly attenuated_lx: number;
  readonly glow_lx: number;
  readonly hazed_m: number;
}

export interface FitQuestion {
  readonly readings: readonly ReadingModel[];
  readonly lamps: number;
  /** Extinction that the light was computed at, 1/m, and that in stops over the plan; 0 in clear air. */
  readonly extinction_per_m: number;
  readonly at_stops: number;
  /** (lamps + 1)², haze last, stops². In clear air the haze's row is never used. */
  readonly prior: Float64Array;
  readonly reading_stops: number;
}

export interface Fit {
  /** Lamps' outputs over the plan, then the haze's extinction over the plan, in stops. */
  readonly x_stops: Float64Array;
  readonly covariance: Float64Array;
  /** Measured over predicted, after the fit, stops. */
  readonly residual_stops: readonly number[];
  readonly predicted_lx: readonly number[];
}

/** RangeError where a reading or its prediction is not above zero: a logarithm has nothing to say about darkness. */
export function fitReadings(question: FitQuestion): Fit {
  const { readings, lamps, prior, reading_stops } = question;
  const n = lamps + 1;
  for (const reading of readings) {
    if (reading.measured_lx > 0 && predict(question, reading, new Float64Array(n)).E > 0) continue;
    throw new RangeError(`reading of ${reading.measured_lx} lx: it and its prediction must be above zero`);
  }
  const priorInverse = inverseOfSymmetric(prior, n);
  const weight = 1 / reading_stops ** 2;
  let x = new Float64Array(n);
  x[lamps] = question.at_stops;
  let cost = costOf(question, priorInverse, x);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { normal, slope } = normalEquations(question, priorInverse, x, weight);
    const step = solveSymmetric(normal, slope, n);
    let share = 1;
    let next = x;
    let nextCost = Number.POSITIVE_INFINITY;
    while (share > 1e-6) {
      next = x.map((value, i) => value + share * step[i]!);
      nextCost = costOf(question, priorInverse, next);
      if (nextCost <= cost) break;
      share /= 2;
    }
    if (!(nextCost <= cost)) break;
    const moved = Math.max(...next.map((value, i) => Math.abs(value - x[i]!)));
    x = next;
    cost = nextCost;
    if (moved < 1e-10) break;
  }
  const { normal } = normalEquations(question, priorInverse, x, weight);
  const predicted_lx = readings.map((reading) => predict(question, reading, x).E);
  return {
    x_stops: x,
    covariance: inverseOfSymmetric(normal, n),
    residual_stops: readings.map((reading, k) => Math.log2(reading.measured_lx / predicted_lx[k]!)),
    predicted_lx,
  };
}

const MOST_ROUNDS = 100;

function costOf(question: FitQuestion, priorInverse: Float64Array, x: Float64Array): number {
  const { readings, reading_stops } = question;
  const misfit = readings.reduce((sum, reading) => {
    const off = Math.log2(reading.measured_lx / predict(question, reading, x).E);
    return sum + (off / reading_stops) ** 2;
  }, 0);
  return misfit + quadraticForm(priorInverse, x);
}

function normalEquations(
  question: FitQuestion,
  priorInverse: Float64Array,
  x: Float64Array,
  weight: number,
): { readonly normal: Float64Array; readonly slope: Float64Array } {
  const n = x.length;
  const normal = Float64Array.from(priorInverse);
  const slope = new Float64Array(n);
  for (let r = 0; r < n; r++) for (let c = 0; c < n; c++) slope[r]! -= priorInverse[r * n + c]! * x[c]!;
  for (const reading of question.readings) {
    const { E, gradient } = predict(question, reading, x);
    const off = Math.log2(reading.measured_lx / E);
    for (const [r, jr] of gradient) {
      slope[r]! += weight * jr * off;
      for (const [c, jc] of gradient) normal[r * n + c]! += weight * jr * jc;
    }
  }
  return { normal, slope };
}

/** E of a reading and its slopes d log₂E/dx, for the unknowns that it depends on. */
function predict(
  { extinction_per_m, at_stops, lamps }: FitQuestion,
  { sky_lx, lamps: lit }: ReadingModel,
  x: Float64Array,
): { readonly E: number; readonly gradient: ReadonlyMap<number, number> } {
  const glowFactor = 2 ** (x[lamps]! - at_stops);
  const sigma = extinction_per_m * glowFactor;
  let E = sky_lx;
  let haze = 0;
  const parts = new Map<number, number>();
  for (const { lamp, attenuated_lx, glow_lx, hazed_m } of lit) {
    const scale = 2 ** x[lamp]! * Math.exp((extinction_per_m - sigma) * hazed_m);
    const light = scale * (attenuated_lx + glow_lx * glowFactor);
    parts.set(lamp, (parts.get(lamp) ?? 0) + light);
    // d(ln light)/dh = ln 2·(glow's share − σ·d)
    haze += scale * glow_lx * glowFactor - light * sigma * hazed_m;
    E += light;
  }
  if (extinction_per_m > 0) parts.set(lamps, haze);
  return { E, gradient: new Map([...parts].map(([i, part]) => [i, part / E])) };
}
