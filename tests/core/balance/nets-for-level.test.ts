import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { netsForLevel } from '../../../src/core/balance/nets-for-level.ts';

describe('nets for a head that dims no further', () => {
  it('take half-stop steps and leave the rest to the dimmer', () => {
    // derived: 0.25 is 2 stops down: 1 stop of nets and level 0.5; 0.2 is 2.32: 1.5 stops and 0.5657; 0.6 needs none.
    expect(netsForLevel(0.25, 0.5)).toEqual({ nets_stops: 1, level: 0.5 });
    const fifth = netsForLevel(0.2, 0.5);
    expect(fifth.nets_stops).toBe(1.5);
    expect(fifth.level).toBeCloseTo(0.5657, 4);
    expect(netsForLevel(0.6, 0.5)).toEqual({ nets_stops: 0, level: 0.6 });
    expect(netsForLevel(0.5, 0.5)).toEqual({ nets_stops: 0, level: 0.5 });
  });

  it('keep the light, and the level within what the head can do (500 seeded)', () => {
    const level = fc.double({ min: 0.001, max: 1, noNaN: true });
    const least = fc.double({ min: 0.05, max: 0.7, noNaN: true });
    fc.assert(
      fc.property(level, least, (wanted, leastLevel) => {
        const { nets_stops, level: dimmer } = netsForLevel(wanted, leastLevel);
        expect(dimmer * 2 ** -nets_stops).toBeCloseTo(wanted, 12);
        expect(dimmer).toBeLessThanOrEqual(1);
        if (nets_stops > 0) {
          expect(dimmer).toBeGreaterThanOrEqual(leastLevel * (1 - 1e-9));
          expect(dimmer).toBeLessThan(leastLevel * Math.SQRT2 * (1 + 1e-6));
        }
        expect(Number.isInteger(2 * nets_stops)).toBe(true);
      }),
      { seed: 4, numRuns: 500 },
    );
  });

  it('are for light that is there', () => {
    expect(() => netsForLevel(0, 0.5)).toThrow('level 0');
    expect(() => netsForLevel(1.2, 0.5)).toThrow('level 1.2');
    expect(() => netsForLevel(0.5, 0)).toThrow('least level 0');
  });
});
