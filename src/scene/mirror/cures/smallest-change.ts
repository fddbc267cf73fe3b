/**
 * The smallest change, in whole centimetres, that leaves a state, and how much further it may go before the state comes
 * back. A mirror image can vanish (into a window, behind a post) and come back, so the whole reach is walked through first
 * in steps of 0.1 m, beyond 1 m of a tenth of the way gone; then the edge is bisected. What is clear for less than two
 * steps is not offered: no one sets a stand in the dark to less.
 */

/** What the search asks of a change of so many metres. */
export interface Trial {
  /** Whether the change may be made at all: nothing stands there, the stand reaches. */
  readonly allowed: (by_m: number) => boolean;
  /** Whether the change leaves the state that is to be left. */
  readonly cures: (by_m: number) => boolean;
}

export interface SmallestChange {
  /** A centimetre less does not do, or may not be done. */
  readonly by_m: number;
  /** As far as it goes on to do, to a centimetre. */
  readonly until_m: number;
}

const STEP_m = 0.1;
const STEP_SHARE = 0.1;
/** A clear stretch counts from so many steps on. */
const LEAST_STEPS = 2;
/** Between the edge and the first step beyond it, the stretch is looked at again in steps of so many centimetres. */
const CHECK_cm = 5;

/** Null where nothing within `reach_m` does. */
export function smallestChange({ allowed, cures }: Trial, reach_m: number): SmallestChange | null {
  const known = new Map<number, boolean>();
  /** By whole centimetres, so that one place is never asked for twice. */
  const clear = (by_cm: number): boolean => {
    let answer = known.get(by_cm);
    if (answer === undefined) {
      answer = allowed(by_cm / 100) && cures(by_cm / 100);
      known.set(by_cm, answer);
    }
    return answer;
  };

  const steps = stepsTo(reach_m);
  for (let first = 1; first < steps.length; first++) {
    if (!clear(steps[first]!)) continue;
    let last = first;
    while (last + 1 < steps.length && clear(steps[last + 1]!)) last++;
    const reachesEnd = last === steps.length - 1;
    if (last - first < LEAST_STEPS && !reachesEnd) {
      first = last;
      continue;
    }
    const by_cm = edge(clear, steps[first - 1]!, steps[first]!);
    const until_cm = reachesEnd ? steps[last]! : edgeDown(clear, steps[last]!, steps[last + 1]!);
    return { by_m: by_cm / 100, until_m: until_cm / 100 };
  }
  return null;
}

/** 0, 10, 20, … and at last the reach itself, in centimetres. */
function stepsTo(reach_m: number): number[] {
  const reach_cm = Math.floor(100 * reach_m + 1e-6);
  const steps = [0];
  for (let by = 0; ; ) {
    by += Math.max(STEP_m, STEP_SHARE * by);
    const by_cm = Math.round(100 * by);
    if (by_cm >= reach_cm) break;
    steps.push(by_cm);
  }
  if (reach_cm > 0) steps.push(reach_cm);
  return steps;
}

/** The first clear centimetre of the stretch that `clearAt` belongs to; not clear two centimetres before, if that can be had. */
function edge(clear: (by_cm: number) => boolean, notClearAt: number, clearAt: number): number {
  let from = notClearAt;
  let to = clearAt;
  for (;;) {
    to = bisect(clear, from, to);
    const again = lastNotClear(clear, to, clearAt);
    if (again !== null) {
      from = again;
      to = clearAt;
    } else if (to - 2 > from && clear(to - 2)) {
      to -= 2;
    } else {
      return to;
    }
  }
}

function bisect(clear: (by_cm: number) => boolean, notClear: number, isClear: number): number {
  let from = notClear;
  let to = isClear;
  while (to - from > 1) {
    const middle = (from + to) >> 1;
    if (clear(middle)) to = middle;
    else from = middle;
  }
  return to;
}

function lastNotClear(clear: (by_cm: number) => boolean, from: number, to: number): number | null {
  for (let by = to - CHECK_cm; by > from; by -= CHECK_cm) if (!clear(by)) return by;
  return null;
}

function edgeDown(clear: (by_cm: number) => boolean, isClear: number, notClear: number): number {
  let [from, to] = [isClear, notClear];
  while (to - from > 1) {
    const middle = (from + to) >> 1;
    if (clear(middle)) from = middle;
    else to = middle;
  }
  return from;
}
