import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assignLoads, type LoadToPlace } from '../../../src/core/electrical/assignment.ts';

/** Of all ways to place the loads, the best by the same three measures; plain enumeration. */
function byTryingAll(loads: readonly LoadToPlace[], capacities: readonly number[]) {
  let best = { left: Number.POSITIVE_INFINITY, changes: 0, fullest: 0 };
  const used = capacities.map(() => 0);
  const place = (i: number, left: number, changes: number): void => {
    const load = loads[i];
    if (!load) {
      const fullest = Math.max(0, ...used.map((u, j) => u / capacities[j]!));
      const better =
        Math.abs(left - best.left) > 1e-6
          ? left < best.left
          : changes !== best.changes
            ? changes < best.changes
            : fullest < best.fullest;
      if (better) best = { left, changes, fullest };
      return;
    }
    for (const [j, change] of load.changes.entries()) {
      if (change === null || used[j]! + load.load_VA > capacities[j]! + 1e-6) continue;
      used[j]! += load.load_VA;
      place(i + 1, left, changes + change);
      used[j]! -= load.load_VA;
    }
    place(i + 1, left + load.load_VA, changes);
  };
  place(0, 0, 0);
  return best;
}

const everywhere = (load_VA: number, n: number): LoadToPlace => ({ load_VA, changes: new Array(n).fill(0) });

describe('assigning loads to circuits', () => {
  it('finds what trying everything finds, on random loads with many ties', () => {
    const load = (circuits: number) =>
      fc.record({
        load_VA: fc.constantFrom(24, 158, 174, 174, 484, 650, 2112),
        changes: fc.array(fc.constantFrom<(0 | 1 | null)[]>(0, 0, 1, 1, null), {
          minLength: circuits,
          maxLength: circuits,
        }),
      });
    const problem = fc.constantFrom(1, 2, 3).chain((circuits) =>
      fc.record({
        loads: fc.array(load(circuits), { minLength: 1, maxLength: 6 }),
        capacities: fc.array(fc.constantFrom(300, 700, 2300, 2300, 2944), {
          minLength: circuits,
          maxLength: circuits,
        }),
      }),
    );
    fc.assert(
      fc.property(problem, ({ loads, capacities }) => {
        const expected = byTryingAll(loads, capacities);
        const got = assignLoads(loads as LoadToPlace[], capacities);
        expect(got.proven).toBe(true);
        expect(got.left_VA).toBeCloseTo(expected.left, 6);
        expect(got.changes).toBe(expected.changes);
        const used = capacities.map(() => 0);
        let changes = 0;
        for (const [i, circuit] of got.circuits.entries()) {
          if (circuit === null) continue;
          used[circuit]! += loads[i]!.load_VA;
          changes += loads[i]!.changes[circuit]!;
        }
        expect(changes).toBe(got.changes);
        // Evenness is sought to a ten-thousandth of a circuit.
        const fullest = Math.max(0, ...used.map((u, j) => u / capacities[j]!));
        expect(fullest - expected.fullest).toBeLessThanOrEqual(1e-4 + 1e-9);
      }),
      { seed: 41, numRuns: 400 },
    );
  });

  it('spreads loads evenly where nothing else decides', () => {
    // derived: 6 × 174 VA over three equal circuits is 348 VA each
    const { circuits } = assignLoads(
      Array.from({ length: 6 }, () => everywhere(174, 3)),
      [2000, 2000, 2000],
    );
    for (const circuit of [0, 1, 2]) expect(circuits.filter((c) => c === circuit)).toHaveLength(2);
  });

  it('moves as few as it can, and the least load stays over', () => {
    // derived: 2112 + 174 > 2200, so one of the two has to move, and either may
    const stay = { load_VA: 2112, changes: [0, 1] as const };
    expect(assignLoads([stay, { load_VA: 174, changes: [0, 1] }], [2200, 2200]).changes).toBe(1);
    // derived: only one of 2112 and 2000 goes into 2200; leaving 2000 over is less
    expect(assignLoads([everywhere(2112, 1), everywhere(2000, 1)], [2200])).toMatchObject({
      circuits: [0, null],
      left_VA: 2000,
    });
  });

  it('fills a circuit to the last volt-ampere in spite of rounding', () => {
    expect(
      assignLoads(
        Array.from({ length: 3 }, () => everywhere(0.1, 1)),
        [0.3],
      ).left_VA,
    ).toBe(0);
  });

  it('always has an answer, and says when a better one might exist', () => {
    // 60 unlike loads on nine circuits that cannot take them all: no search ends.
    const loads = Array.from({ length: 60 }, (_, i) => everywhere(300 + 37 * ((i * 7) % 60), 9));
    const total = loads.reduce((sum, load) => sum + load.load_VA, 0);
    const capacity = total / 9.5;
    const got = assignLoads(loads, new Array(9).fill(capacity));
    expect(got.proven).toBe(false);
    expect(got.left_VA).toBeGreaterThanOrEqual(total - 9 * capacity - 1e-6);
    expect(got.left_VA).toBeLessThan(total / 8);
    const used = new Array(9).fill(0);
    for (const [i, circuit] of got.circuits.entries())
      if (circuit !== null) used[circuit] += loads[i]!.load_VA;
    expect(Math.max(...used)).toBeLessThanOrEqual(capacity + 1e-5);
  });

  it('has nothing to say of nothing, and refuses what is no load', () => {
    expect(assignLoads([], [])).toEqual({ circuits: [], left_VA: 0, changes: 0, proven: true });
    expect(assignLoads([everywhere(174, 0)], [])).toMatchObject({ circuits: [null], left_VA: 174 });
    expect(() => assignLoads([everywhere(0, 1)], [100])).toThrow('load in volt-amperes is 0');
    expect(() => assignLoads([everywhere(10, 1)], [0])).toThrow('capacity in volt-amperes is 0');
  });
});
