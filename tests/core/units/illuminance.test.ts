import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fcFromLx, LX_PER_FC, lxFromFc } from '../../../src/core/units/illuminance.ts';
import { IDENTITY } from '../../tolerances.ts';

describe('lux and foot-candles', () => {
  it('has 10.763910417 lx in a foot-candle', () => {
    // published: by the definition of the foot, 0.3048 m exactly
    expect(Math.abs(LX_PER_FC - 10.763910417)).toBeLessThan(1e-8);
  });

  it('returns what it was given', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (E) => {
        expect(Math.abs(lxFromFc(fcFromLx(E)) / E - 1)).toBeLessThan(IDENTITY);
      }),
      { seed: 10, numRuns: 100 },
    );
  });
});
