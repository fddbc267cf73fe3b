import { boundedLevels } from './bounded-levels.ts';

/** What one want has to do with the levels: Σ full_lx·level + other_lx should be wanted_lx. */
export interface WantedLight {
  readonly full_lx: readonly number[];
  readonly other_lx: number;
  readonly wanted_lx: number;
}

/**
 * Levels within 0..1 whose light is nearest to what is wanted, in stops: least Σ log₂²(E/E_wanted). Errors relative to the
 * wanted light come first, which is exact where the wants can be met and convex where they cannot; then Gauss–Newton steps
 * in the logarithm, so that a compromise is as many stops over here as it is under there.
 */
export function levelsForStops(wants: readonly WantedLight[], present: readonly number[]): number[] {
  const light_lx = (levels: readonly number[]) =>
    wants.map(({ full_lx, other_lx }) => full_lx.reduce((sum, lx, l) => sum + lx * levels[l]!, other_lx));
  const off = (levels: readonly number[]) =>
    light_lx(levels).reduce(
      (sum, lx, w) => sum + Math.log2(Math.max(lx / wants[w]!.wanted_lx, DARKEST)) ** 2,
      0,
    );
  const solve = (at_lx: readonly number[], from: readonly number[]) =>
    boundedLevels(
      wants.map(({ full_lx }, w) => full_lx.map((lx) => lx / at_lx[w]!)),
      // log(E/E_wanted) = 0, to first order at E = at_lx.
      wants.map(({ other_lx, wanted_lx }, w) => 1 + Math.log(wanted_lx / at_lx[w]!) - other_lx / at_lx[w]!),
      from,
    );

  const descended = (start: readonly number[]): readonly number[] => {
    let levels = start;
    for (let round = 0; round < MOST_ROUNDS && off(levels) > MET_stops2; round++) {
      const at_lx = light_lx(levels).map((lx, w) => Math.max(lx, DARKEST * wants[w]!.wanted_lx));
      const next = solve(at_lx, levels);
      // A step is shortened until it helps; all that lies between two allowed sets of levels is allowed.
      let share = 1;
      let tried: readonly number[] = next;
      while (off(tried) >= off(levels) && share > 0.02) {
        share /= 2;
        tried = levels.map((level, l) => level + share * (next[l]! - level));
      }
      if (off(levels) - off(tried) < MET_stops2) break;
      levels = tried;
    }
    return levels;
  };
  const nearest = solve(
    wants.map((want) => want.wanted_lx),
    present,
  );
  if (off(nearest) <= MET_stops2) return nearest;
  // Wants that cannot be met together may have more than one best compromise: downhill from full light is tried too.
  const [one, other] = [descended(nearest), descended(present.map(() => 1))];
  return [...(off(other) < off(one) - 1e-6 ? other : one)];
}

/** Where a want reads nothing its logarithm has no end; ten stops under is as bad as it gets. */
const DARKEST = 2 ** -10;
const MET_stops2 = 1e-8;
const MOST_ROUNDS = 60;
