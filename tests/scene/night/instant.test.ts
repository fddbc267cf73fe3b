import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockTime, isoText, offsetText, parseInstant } from '../../../src/scene/night/instant.ts';

describe('instants', () => {
  it('count days from 2000-01-01 12:00', () => {
    // published: the epoch J2000; 2024-04-08 is day 8864 after 2000-01-01 (24 years, 6 leap days, 31 + 29 + 31 + 7)
    expect(parseInstant('2000-01-01T12:00:00Z')).toEqual({ ut_days: 0, offset_min: 0 });
    expect(parseInstant('2024-04-08T12:00:00Z').ut_days).toBe(24 * 365 + 6 + 31 + 29 + 31 + 7);
    expect(parseInstant('1970-01-01T00:00:00Z').ut_days).toBe(-10_957.5);
    expect(parseInstant('2027-03-04T20:00Z').ut_days).toBeCloseTo(9924 + 8 / 24, 9);
  });

  it('agree with the platform’s calendar, both ways', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -30_000_000, max: 120_000_000 }),
        fc.integer({ min: -14 * 60, max: 14 * 60 }),
        (minutes, offset_min) => {
          // derived: the same instant through the platform's own dates
          const date = new Date(minutes * 60_000);
          const local = new Date(date.getTime() + offset_min * 60_000).toISOString().slice(0, 16);
          const iso = `${local}:00${offset_min === 0 ? 'Z' : offsetText(offset_min)}`;
          const instant = parseInstant(iso);
          expect(instant.offset_min).toBe(offset_min);
          expect(Math.abs(instant.ut_days - (date.getTime() / 86_400_000 - 10_957.5))).toBeLessThan(1e-9);
          expect(isoText(instant)).toBe(`${local}${offsetText(offset_min)}`);
        },
      ),
      { seed: 2000, numRuns: 300 },
    );
  });

  it('are shown to the nearest minute, over midnight too', () => {
    expect(clockTime(parseInstant('2027-12-31T23:59:40Z'))).toMatchObject({
      date: '2028-01-01',
      time: '00:00',
    });
    expect(clockTime(parseInstant('2028-02-29T00:10:00+05:30')).time).toBe('00:10');
  });

  it('refuse what is none', () => {
    expect(() => parseInstant('yesterday')).toThrow('"yesterday" is no date and time such as');
    expect(() => parseInstant('2027-03-04T20:00:00')).toThrow('is no date and time');
  });
});
