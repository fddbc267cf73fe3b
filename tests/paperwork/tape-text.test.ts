import { describe, expect, it } from 'vitest';
import { metresText, tapeText } from '../../src/paperwork/tape-text.ts';

describe('lengths for a tape', () => {
  it.each([
    // derived: 0.3048 m to the foot, to the nearest half inch
    [7, '7 m (22 ft 11½ in)'],
    [0.3047, '0.3 m (1 ft 0 in)'],
    [0.0127, '0.01 m (½ in)'],
    [18.66, '18.7 m (61 ft 2½ in)'],
  ])('%d m', (length_m, text) => {
    expect(tapeText(length_m)).toBe(text);
  });

  it('have centimetres when they are short', () => {
    expect([metresText(2.345), metresText(23.45)]).toEqual(['2.35 m', '23.4 m']);
  });
});
