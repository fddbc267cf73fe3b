/** The stretch of the ruler that one needle and its label take up. */
export interface Stretch {
  readonly id: string;
  readonly from_px: number;
  readonly to_px: number;
}

export interface Lanes {
  /** By id; 0 is next to the ruler. */
  readonly laneOf: ReadonlyMap<string, number>;
  readonly count: number;
}

/**
 * Puts stretches into as few lanes as they need so that none covers another: in the order of where they begin, each into the
 * first lane that is free there (which is the least number, as many as overlap at the worst place). Given the lanes before,
 * each stays where it was unless something stands there now, so that needles keep still while others move; only at rest,
 * and where it saves a lane, all are put anew.
 */
export function lanesFor(
  stretches: readonly Stretch[],
  before: ReadonlyMap<string, number>,
  moving: boolean,
): Lanes {
  const sorted = stretches.toSorted((a, b) => a.from_px - b.from_px);
  if (before.size === 0) return packed(sorted, before);
  // Those that had a lane are put first, so that one that is new does not push them away.
  const kept = packed(
    sorted.toSorted((a, b) => Number(before.has(b.id)) - Number(before.has(a.id))),
    before,
  );
  if (moving) return kept;
  const anew = packed(sorted, new Map());
  return anew.count < kept.count ? anew : kept;
}

function packed(stretches: readonly Stretch[], before: ReadonlyMap<string, number>): Lanes {
  const taken: Stretch[][] = [];
  const laneOf = new Map<string, number>();
  const isFree = (lane: number, one: Stretch) =>
    (taken[lane] ?? []).every((other) => one.from_px >= other.to_px || one.to_px <= other.from_px);
  for (const one of stretches) {
    const wanted = before.get(one.id);
    let lane = wanted !== undefined && isFree(wanted, one) ? wanted : 0;
    while (!isFree(lane, one)) lane++;
    while (taken.length <= lane) taken.push([]);
    taken[lane]!.push(one);
    laneOf.set(one.id, lane);
  }
  return { laneOf, count: taken.length };
}
