/**
 * What readings tell by themselves, without the plan: from the covariance of a fit whose priors were made WEAKER times as
 * wide. An unknown is told when the readings alone hold it within what the plan already knew; unknowns that are not, and move
 * together, cannot be told apart: more of one explains the readings as well as less of the other.
 */
export const WEAKER = 1000;

export interface Told {
  /** By unknown: whether the readings alone tell it. */
  readonly told: readonly boolean[];
  /** Groups of unknowns that cannot be told apart, each in rising order. */
  readonly together: readonly (readonly number[])[];
}

/** Two unknowns go together when this much of either's spread is the other's. */
const CORRELATED = 0.9;

/** `concerned`: the unknowns that any reading depends on. `plan_stops`: what the plan may be off by, ±. */
export function toldApart(
  weakCovariance: Float64Array,
  plan_stops: readonly number[],
  concerned: readonly number[],
): Told {
  const n = plan_stops.length;
  const spread = (i: number) => Math.sqrt(weakCovariance[i * n + i]!);
  const told = plan_stops.map((plan, i) => concerned.includes(i) && spread(i) <= plan);
  const open = concerned.filter((i) => !told[i]);
  const together: number[][] = [];
  for (const i of open) {
    const goesWith = (k: number) =>
      Math.abs(weakCovariance[i * n + k]!) >= CORRELATED * spread(i) * spread(k);
    const group = together.find((members) => members.some(goesWith));
    if (group) group.push(i);
    else together.push([i]);
  }
  return { told, together: together.filter((group) => group.length > 1) };
}
