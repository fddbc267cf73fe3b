import { confidence95 } from '../math/confidence.ts';
import { kroneckerU, kroneckerV, mixed32 } from '../math/kronecker.ts';
import type { Receptor } from './receptor.ts';
import { emptySample, type SourceSampler } from './source-sample.ts';

/**
 * Integrates a source by randomised quasi-Monte Carlo: REPLICATES independent shifts of one low-discrepancy sequence,
 * each a fair estimate by itself, so that their spread gives the error of their mean (Owen 1995; L'Ecuyer & Lemieux
 * 2002). The shifts come from a fixed key: the same question always gets the same digits, and a reading does not jitter
 * while a lamp is dragged.
 */
export const REPLICATES = 8;

export interface Estimate {
  readonly sampler: SourceSampler;
  readonly key: number;
  /** Points per replicate so far. */
  points: number;
  readonly flatSum: Float64Array;
  readonly domeSum: Float64Array;
  unblockedFlatSum: number;
  unblockedDomeSum: number;
  openSum: number;
}

export function newEstimate(sampler: SourceSampler, key: number): Estimate {
  return {
    sampler,
    key,
    points: 0,
    flatSum: new Float64Array(REPLICATES),
    domeSum: new Float64Array(REPLICATES),
    unblockedFlatSum: 0,
    unblockedDomeSum: 0,
    openSum: 0,
  };
}

const sample = emptySample();

/** Takes every replicate up to `points` points. */
export function refine(estimate: Estimate, points: number): void {
  const { sampler, key, flatSum, domeSum } = estimate;
  for (let replicate = 0; replicate < REPLICATES; replicate++) {
    const shiftU = mixed32(key * 2 * REPLICATES + 2 * replicate + 1);
    const shiftV = mixed32(key * 2 * REPLICATES + 2 * replicate + 2);
    for (let i = estimate.points; i < points; i++) {
      sampler(kroneckerU(i, shiftU), kroneckerV(i, shiftV), sample);
      flatSum[replicate]! += sample.flat_lx;
      domeSum[replicate]! += sample.dome_lx;
      estimate.unblockedFlatSum += sample.unblockedFlat_lx;
      estimate.unblockedDomeSum += sample.unblockedDome_lx;
      estimate.openSum += sample.open;
    }
  }
  estimate.points = Math.max(estimate.points, points);
}

export function mean_lx(estimate: Estimate, receptor: Receptor): number {
  const sums = receptor === 'flat' ? estimate.flatSum : estimate.domeSum;
  let total = 0;
  for (let i = 0; i < REPLICATES; i++) total += sums[i]!;
  return total / (REPLICATES * estimate.points);
}

/** Unblocked share of the source. */
export function openShare(estimate: Estimate): number {
  return estimate.openSum / (REPLICATES * estimate.points);
}

/**
 * Half-width of the 95 % interval of the mean, in lux: the replicates' spread, and half a sample's worth of the
 * unblocked light, because something thinner than a sample's share of the source may have gone unseen.
 */
export function error_lx(estimate: Estimate, receptor: Receptor): number {
  const sums = receptor === 'flat' ? estimate.flatSum : estimate.domeSum;
  const spread = confidence95(sums) / estimate.points;
  const unblocked = receptor === 'flat' ? estimate.unblockedFlatSum : estimate.unblockedDomeSum;
  const samples = REPLICATES * estimate.points;
  return Math.hypot(spread, unblocked / samples / (2 * samples));
}
