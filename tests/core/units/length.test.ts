import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  feetAndInchesFromMetres,
  feetFromMetres,
  metresFromFeet,
  metresFromFeetAndInches,
} from '../../../src/core/units/length.ts';
import { IDENTITY } from '../../tolerances.ts';

describe('metres and feet', () => {
  it('has exactly 0.3048 m in a foot', () => {
    // published: international yard and pound agreement, 1959
    expect([metresFromFeet(1), feetFromMetres(0.3048)]).toEqual([0.3048, 1]);
    expect(metresFromFeetAndInches({ feet: 13, inches: 0 })).toBeCloseTo(3.9624, 12);
    expect(metresFromFeetAndInches({ feet: 0, inches: 1 })).toBeCloseTo(0.0254, 15);
  });

  it('returns what it was given', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e4, noNaN: true }), (m) => {
        expect(Math.abs(metresFromFeet(feetFromMetres(m)) / m - 1)).toBeLessThan(IDENTITY);
      }),
      { seed: 12, numRuns: 100 },
    );
  });

  it('reads like a tape: inches stay under twelve and the length within half a step', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.constantFrom(1, 0.5, 0.25, 0.125),
        (m, step) => {
          const tape = feetAndInchesFromMetres(m, step);
          expect(Number.isInteger(tape.feet)).toBe(true);
          expect(Math.abs(tape.inches)).toBeLessThan(12);
          expect(Math.abs(metresFromFeetAndInches(tape) - m)).toBeLessThanOrEqual(0.0254 * (step / 2 + 1e-9));
        },
      ),
      { seed: 48, numRuns: 200 },
    );
  });

  it('carries a full twelve inches into the foot and the sign into both parts', () => {
    // derived: 0.3047 m is 11.996 in; −1 m is −3 ft 3.37 in
    expect(feetAndInchesFromMetres(0.3047)).toEqual({ feet: 1, inches: 0 });
    expect(feetAndInchesFromMetres(-1)).toEqual({ feet: -3, inches: -3.5 });
    expect(feetAndInchesFromMetres(-0.001)).toEqual({ feet: 0, inches: 0 });
    expect(() => feetAndInchesFromMetres(1, 0)).toThrow('inch step is 0');
  });
});
