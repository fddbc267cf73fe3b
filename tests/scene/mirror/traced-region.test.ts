import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { area_m2, type PlanPoint, regionHolds, toEdge_m } from '../../../src/scene/mirror/plan.ts';
import { latticeOver, latticePoint, tracedRegion } from '../../../src/scene/mirror/traced-region.ts';
import { finished } from '../../support/finished.ts';

const LOW: PlanPoint = [-5, -4];
const HIGH: PlanPoint = [5, 4];
const LATTICE = latticeOver(LOW, HIGH, 0.25);

function traced(holds: (x: number, z: number) => boolean) {
  return finished(tracedRegion(LATTICE, holds));
}

describe('the lattice', () => {
  it('has points on all four edges, no farther apart than was asked', () => {
    expect(LATTICE).toMatchObject({ columns: 41, rows: 33 });
    expect(latticePoint(LATTICE, 0, 0)).toEqual(LOW);
    expect(latticePoint(LATTICE, 40, 32)).toEqual(HIGH);
    expect(latticeOver([0, 0], [1, 1], 0.3)).toMatchObject({ columns: 5, rows: 5 });
  });
});

describe('a region traced by asking', () => {
  // Derived: areas of discs, to what cutting corners at 0.25 m takes off (about spacing²/8r of the border a metre).
  it.each<[string, (x: number, z: number) => boolean, number]>([
    ['a disc', (x, z) => Math.hypot(x, z) < 3, 9 * Math.PI],
    ['a ring', (x, z) => Math.hypot(x, z) < 3 && Math.hypot(x, z) > 1.5, 6.75 * Math.PI],
    ['all but a disc', (x, z) => Math.hypot(x, z) > 3, 80 - 9 * Math.PI],
    ['all', () => true, 80],
    ['a half, cut by a slant', (x, z) => x + z > 0, 40],
    ['nothing', () => false, 0],
  ])('%s', (_, holds, expected_m2) => {
    expect(Math.abs(area_m2(traced(holds)) - expected_m2)).toBeLessThan(0.15);
  });

  it('agrees with the question more than 0.05 m from the border, for shapes wider than four spacings', () => {
    const disc = fc.record({
      x: fc.double({ min: -4, max: 4, noNaN: true }),
      z: fc.double({ min: -3, max: 3, noNaN: true }),
      r: fc.double({ min: 1, max: 3, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(disc, { minLength: 1, maxLength: 4 }), (discs) => {
        const holds = (x: number, z: number) => discs.some((d) => Math.hypot(x - d.x, z - d.z) < d.r);
        const region = traced(holds);
        let asked = 0;
        let wrong = 0;
        for (let x = -4.93; x < 5; x += 0.25)
          for (let z = -3.89; z < 4; z += 0.25) {
            if (toEdge_m(region, x, z) < 0.05) continue;
            asked++;
            if (regionHolds(region, x, z) !== holds(x, z)) wrong++;
          }
        // Where discs meet at a sharp inner corner, the corner is cut.
        expect(wrong / asked).toBeLessThan(0.003);
      }),
      { seed: 20_260_301, numRuns: 25 },
    );
  });

  it('asks seldom away from the border', () => {
    let asked = 0;
    traced((x) => {
      asked++;
      return x < 0.1;
    });
    expect(asked).toBeLessThan(0.5 * LATTICE.columns * LATTICE.rows);
  });
});
