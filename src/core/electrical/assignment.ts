/**
 * Which load goes on which circuit: bin packing, by branch and bound.
 *
 * Best is, in this order: the least load left over, the fewest changes, and the most evenly filled circuits. Loads are tried
 * largest first, each where it is already, then on the emptiest circuit; equal loads and equal circuits are tried once. The
 * first descent is the plain rule "largest first, where there is most room", so that there is always an answer; what follows
 * improves it until nothing better is possible or the steps are spent. Steps are counted, not timed: the same question gets the
 * same answer everywhere.
 */
import { positive } from '../units/quantity.ts';

export interface LoadToPlace {
  readonly load_VA: number;
  /** For each circuit: 0 where it is already or costs nothing, 1 where it would be a change, null where it cannot go. */
  readonly changes: readonly (0 | 1 | null)[];
}

export interface Assignment {
  /** For each load its circuit, or null where it was left over. */
  readonly circuits: readonly (number | null)[];
  readonly left_VA: number;
  readonly changes: number;
  /** Whether nothing leaves less over, or the same with fewer changes. False when the steps were spent before that was known. */
  readonly proven: boolean;
}

/** Looks at a circuit: well under a second of work. */
const MOST_STEPS = 1_000_000;

/** Circuits need not be filled more evenly than to this share of a circuit. */
const EVEN_ENOUGH = 1e-4;

/** Volt-amperes that do not count, so that a circuit filled exactly is not lost to rounding. */
const SLACK_VA = 1e-6;

/**
 * Assigns loads to circuits of given capacities, in VA. RangeError when a load or a capacity is not above zero.
 * Planning only: local codes and a qualified person rule.
 */
export function assignLoads(
  loads: readonly LoadToPlace[],
  capacities_VA: readonly number[],
  mostSteps = MOST_STEPS,
): Assignment {
  const search = newSearch(loads, capacities_VA, mostSteps);
  descend(search, 0);
  const proven = search.steps < mostSteps;
  if (proven) {
    search.evenly = true;
    search.steps = 0;
    descend(search, 0);
  }
  const circuits: (number | null)[] = new Array(loads.length).fill(null);
  for (const [i, circuit] of search.best.circuits.entries()) circuits[search.order[i]!] = circuit;
  return { circuits, left_VA: search.best.left_VA, changes: search.best.changes, proven };
}

interface Search {
  /** Positions of the loads, largest first, equal ones beside each other. */
  readonly order: readonly number[];
  readonly loads: readonly LoadToPlace[];
  readonly equalToLast: readonly boolean[];
  /** What is still to be placed from each position on. */
  readonly rest_VA: readonly number[];
  readonly capacities_VA: readonly number[];
  /** For each circuit, the first one that no load tells from it but by its filling. */
  readonly kind: readonly number[];
  readonly mostSteps: number;
  readonly used_VA: number[];
  readonly now: (number | null)[];
  left_VA: number;
  changes: number;
  steps: number;
  /** Whether the evenness of the filling counts too. */
  evenly: boolean;
  best: { circuits: readonly (number | null)[]; left_VA: number; changes: number; fullest: number };
}

function newSearch(
  loads: readonly LoadToPlace[],
  capacities_VA: readonly number[],
  mostSteps: number,
): Search {
  for (const { load_VA } of loads) positive(load_VA, 'load in volt-amperes');
  for (const capacity of capacities_VA) positive(capacity, 'capacity in volt-amperes');
  const likeness = loads.map((load) => load.changes.join());
  const order = loads
    .map((_, i) => i)
    .sort(
      (a, b) => loads[b]!.load_VA - loads[a]!.load_VA || compareText(likeness[a]!, likeness[b]!) || a - b,
    );
  const sorted = order.map((i) => loads[i]!);
  const rest_VA: number[] = [];
  let rest = 0;
  for (let i = sorted.length - 1; i >= 0; i--) {
    rest += sorted[i]!.load_VA;
    rest_VA[i] = rest;
  }
  const same = (a: number, b: number) =>
    capacities_VA[a] === capacities_VA[b] && loads.every((load) => load.changes[a] === load.changes[b]);
  return {
    order,
    loads: sorted,
    equalToLast: sorted.map(
      (load, i) =>
        i > 0 && load.load_VA === sorted[i - 1]!.load_VA && likeness[order[i]!] === likeness[order[i - 1]!],
    ),
    rest_VA,
    capacities_VA,
    kind: capacities_VA.map((_, j) => capacities_VA.findIndex((_, first) => same(first, j))),
    mostSteps,
    used_VA: capacities_VA.map(() => 0),
    now: [],
    left_VA: 0,
    changes: 0,
    steps: 0,
    evenly: false,
    best: { circuits: [], left_VA: Number.POSITIVE_INFINITY, changes: 0, fullest: 0 },
  };
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function descend(search: Search, i: number): void {
  const load = search.loads[i];
  if (!load) {
    const { now, left_VA, changes } = search;
    if (isWorse(search, left_VA, fullest)) return;
    search.best = { circuits: [...now], left_VA, changes, fullest: fullest(search) };
    return;
  }
  if (isWorse(search, leastLeft_VA(search, i), () => leastFullest(search, i))) return;
  search.steps += search.capacities_VA.length + 1;
  for (const circuit of choices(search, i)) {
    if (search.steps >= search.mostSteps && search.best.left_VA < Number.POSITIVE_INFINITY) return;
    const change = circuit === null ? 0 : load.changes[circuit]!;
    if (circuit === null) search.left_VA += load.load_VA;
    else search.used_VA[circuit]! += load.load_VA;
    search.changes += change;
    search.now.push(circuit);
    descend(search, i + 1);
    search.now.pop();
    search.changes -= change;
    if (circuit === null) search.left_VA -= load.load_VA;
    else search.used_VA[circuit]! -= load.load_VA;
  }
}

/** Whether nothing below here can be better than the best so far. */
function isWorse(search: Search, left_VA: number, fullestOf: (search: Search) => number): boolean {
  const { best, changes, evenly } = search;
  if (Math.abs(left_VA - best.left_VA) > SLACK_VA) return left_VA > best.left_VA;
  if (changes !== best.changes) return changes > best.changes;
  return !evenly || fullestOf(search) > best.fullest - EVEN_ENOUGH;
}

/** Circuits to try, in order: where nothing changes, then by room; left over last. Equal ones once. */
function choices(search: Search, i: number): (number | null)[] {
  const { loads, used_VA, capacities_VA, kind, equalToLast, now, best } = search;
  const load = loads[i]!;
  // The first descent is free to fill evenly; from then on equal loads go in the order of the circuits, so that swapping them
  // is not tried.
  const ordered = best.left_VA < Number.POSITIVE_INFINITY;
  const before = ordered && equalToLast[i] ? now[i - 1] : undefined;
  if (before === null) return [null];
  const seen = new Set<string>();
  const open: number[] = [];
  for (const [j, change] of load.changes.entries()) {
    if (change === null || used_VA[j]! + load.load_VA > capacities_VA[j]! + SLACK_VA) continue;
    if (before !== undefined && j < before) continue;
    const like = `${kind[j]}:${used_VA[j]}`;
    if (before === undefined && seen.has(like)) continue;
    seen.add(like);
    open.push(j);
  }
  const share = (j: number) => (used_VA[j]! + load.load_VA) / capacities_VA[j]!;
  open.sort((a, b) => load.changes[a]! - load.changes[b]! || share(a) - share(b) || a - b);
  return [...open, null];
}

/** What is left over at least: the rest that does not go into the room where even the smallest load fits. */
function leastLeft_VA({ loads, rest_VA, used_VA, capacities_VA, left_VA }: Search, i: number): number {
  const smallest = loads.at(-1)!.load_VA;
  let room = 0;
  for (const [j, capacity] of capacities_VA.entries()) {
    const free = capacity - used_VA[j]!;
    if (free + SLACK_VA >= smallest) room += free;
  }
  return left_VA + Math.max(0, rest_VA[i]! - room - SLACK_VA);
}

function fullest({ used_VA, capacities_VA }: Search): number {
  let most = 0;
  for (const [j, used] of used_VA.entries()) most = Math.max(most, used / capacities_VA[j]!);
  return most;
}

/** Filled evenly to the brim, all circuits would be this full if nothing more were left over. */
function leastFullest(search: Search, i: number): number {
  const { used_VA, capacities_VA, rest_VA } = search;
  const all = used_VA.reduce((a, b) => a + b, 0) + rest_VA[i]!;
  const mean = all / capacities_VA.reduce((a, b) => a + b, 0);
  // Loads that are left over in the best answer too would fill nothing.
  return search.best.left_VA > SLACK_VA ? fullest(search) : Math.max(fullest(search), mean);
}
