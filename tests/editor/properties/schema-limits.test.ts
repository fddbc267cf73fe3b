import { describe, expect, it } from 'vitest';
import { limitsOf, outsideLimits } from '../../../src/editor/properties/schema-limits.ts';

describe('limits read from the schema', () => {
  it('are those that a scene is checked by', () => {
    expect(limitsOf('lamps', ['level'])).toMatchObject({ least: 0, most: 1, optional: true });
    expect(limitsOf('lamps', ['position_m', 1])).toMatchObject({
      least: -10_000,
      most: 10_000,
      optional: false,
    });
    expect(limitsOf('heads', ['photometry', 'field_deg'])).toMatchObject({ above: 0, below: 360 });
    expect(limitsOf('solids', ['windows', 3, 'count'])).toMatchObject({ least: 1, most: 500, whole: true });
    expect(limitsOf('filters', ['band', 'centre_nm'])).toMatchObject({ least: 350, most: 800 });
    expect(limitsOf('keepOut', ['outline_m'])).toMatchObject({ shortest: 3, longest: 200 });
    expect(limitsOf('site', ['mains', 'hertz'])?.choices).toEqual([50, 60]);
    expect(limitsOf('marks', ['facing', 1])).toMatchObject({ least: -10_000, most: 10_000 });
    expect(limitsOf('lamps', ['colour'])).toBeUndefined();
  });

  it('say in words why a figure is outside', () => {
    const text = (value: number) => `${value} °`;
    const field = limitsOf('heads', ['photometry', 'field_deg'])!;
    expect(outsideLimits(field, 0, text)).toBe('more than 0 °');
    expect(outsideLimits(field, 360, text)).toBe('less than 360 °');
    expect(outsideLimits(field, 90, text)).toBeUndefined();
    const count = limitsOf('solids', ['doors', 0, 'count'])!;
    expect(outsideLimits(count, 0, String)).toBe('at least 1');
    expect(outsideLimits(count, 501, String)).toBe('at most 500');
    expect(outsideLimits(count, 1.5, String)).toBe('a whole number');
  });
});
