import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newMedianTally } from '../../../src/preview/export/median-tally.ts';

describe('the median of more numbers than are kept', () => {
  it('is that of the sorted numbers, to the width of a class', () => {
    const numbers = fc.array(fc.double({ min: 1e-6, max: 200, noNaN: true }), {
      minLength: 1,
      maxLength: 40,
    });
    fc.assert(
      fc.property(fc.array(numbers, { minLength: 1, maxLength: 4 }), (parts) => {
        const tally = newMedianTally();
        for (const part of parts) tally.add(part);
        const sorted = parts.flat().sort((a, b) => a - b);
        // derived: 32 classes an octave are 2.2 % wide; the middle of a class is half of that from its ends
        const ratio = tally.median()! / sorted[sorted.length >> 1]!;
        expect(Math.abs(Math.log2(ratio))).toBeLessThanOrEqual(0.5 / 32 + 1e-9);
      }),
      { seed: 5 },
    );
  });

  it('takes nothing, zero and what is beyond its classes', () => {
    expect(newMedianTally().median()).toBe(null);
    const tally = newMedianTally();
    tally.add([0, 0, 1e9]);
    expect(tally.median()).toBeLessThan(1e-7);
    tally.add([1e9, 1e9]);
    expect(tally.median()).toBeGreaterThan(200);
  });
});
