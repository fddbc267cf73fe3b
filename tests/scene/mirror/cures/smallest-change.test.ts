import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallestChange } from '../../../../src/scene/mirror/cures/smallest-change.ts';

const anywhere = () => true;

describe('the smallest change', () => {
  it.each([
    [0.004, 0.01],
    [0.37, 0.38],
    [1, 1.01],
    [7.251, 7.26],
  ])('past %d m is the next centimetre', (edge, by_m) => {
    expect(smallestChange({ allowed: anywhere, cures: (by) => by > edge }, 10)).toEqual({
      by_m,
      until_m: 10,
    });
  });

  it('is none where nothing in reach does', () => {
    expect(smallestChange({ allowed: anywhere, cures: () => false }, 10)).toBeNull();
    expect(smallestChange({ allowed: anywhere, cures: (by) => by > 10.2 }, 10)).toBeNull();
    expect(smallestChange({ allowed: anywhere, cures: () => true }, 0)).toBeNull();
  });

  it('may be the whole reach', () => {
    expect(smallestChange({ allowed: anywhere, cures: (by) => by > 0.83 }, 0.85)).toEqual({
      by_m: 0.84,
      until_m: 0.85,
    });
  });

  it('passes over a gap too narrow to stand in, and stops at one that is wide enough', () => {
    const narrow = (by: number) => (by > 0.52 && by < 0.6) || by > 1.4;
    expect(smallestChange({ allowed: anywhere, cures: narrow }, 10)).toEqual({ by_m: 1.41, until_m: 10 });
    const wide = (by: number) => (by > 0.52 && by < 0.95) || by > 1.4;
    expect(smallestChange({ allowed: anywhere, cures: wide }, 10)).toEqual({ by_m: 0.53, until_m: 0.94 });
  });

  it('keeps out of where it may not be', () => {
    const allowed = (by: number) => by < 0.3 || by > 0.9;
    expect(smallestChange({ allowed, cures: (by) => by > 0.5 }, 10)).toEqual({ by_m: 0.91, until_m: 10 });
  });

  it('does, and two centimetres less does not, whatever comes and goes', () => {
    const stretch = fc.tuple(
      fc.double({ min: 0, max: 8, noNaN: true }),
      fc.double({ min: 0.05, max: 2, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(stretch, { maxLength: 8 }), (burning) => {
        const cures = (by: number) =>
          by > 0.02 && !burning.some(([from, long]) => by >= from && by <= from + long);
        const least = smallestChange({ allowed: anywhere, cures }, 10);
        if (!least) return;
        expect(cures(least.by_m)).toBe(true);
        expect(cures(least.by_m - 0.02)).toBe(false);
        expect(cures(least.until_m)).toBe(true);
        expect(least.until_m === 10 || !cures(least.until_m + 0.01)).toBe(true);
        // The stretch is unbroken, but for what is thinner than what is looked at again.
        for (let by = least.by_m; by < Math.min(least.until_m, least.by_m + 0.1); by += 0.01)
          expect(cures(by)).toBe(true);
      }),
      { seed: 20_260_302, numRuns: 400 },
    );
  });
});
