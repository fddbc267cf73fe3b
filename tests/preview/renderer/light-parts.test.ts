import { describe, expect, it } from 'vitest';
import { lightParts } from '../../../src/preview/renderer/light-parts.ts';
import type { Features } from '../../../src/preview/shaders/features.ts';
import { LIGHT_KINDS } from '../../../src/preview/shaders/light-kinds.ts';

const NONE: Features = { haze: false, hazeBoxes: false, mirrors: false, sheets: false, tables: false };
const ALL: Features = { haze: true, hazeBoxes: true, mirrors: true, sheets: true, tables: true };

describe('the kinds of light that a sample asks for', () => {
  it('are those that the scene has, each once, that of lamps first and always', () => {
    for (const [features, kinds] of [
      [NONE, ['lamps']],
      [ALL, LIGHT_KINDS],
      [{ ...NONE, sheets: true }, ['lamps', 'scattered']],
    ] as const) {
      const parts = lightParts(features);
      expect(parts.map(({ kind }) => kind)).toEqual(kinds);
      expect(parts[0]).toMatchObject({ every: 1, deeperEvery: 1 });
    }
  });
});
