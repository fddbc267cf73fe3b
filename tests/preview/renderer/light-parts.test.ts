import { describe, expect, it } from 'vitest';
import { lightParts } from '../../../src/preview/renderer/light-parts.ts';
import type { Features } from '../../../src/preview/shaders/features.ts';
import { LIGHT_KINDS } from '../../../src/preview/shaders/light-kinds.ts';

const NONE: Features = { haze: false, hazeBoxes: false, mirrors: false, sheets: false, tables: false };
const ALL: Features = { haze: true, hazeBoxes: true, mirrors: true, sheets: true, tables: true };

describe('the parts of a sample', () => {
  it('are one program that asks for every kind of light, when kinds are not drawn apart', () => {
    expect(lightParts(ALL, false)).toEqual([{ kinds: LIGHT_KINDS, every: 1, deeperEvery: 1 }]);
  });

  it('ask for each kind of light that the scene has once, straight light first and always', () => {
    for (const [features, kinds] of [
      [NONE, ['straight']],
      [ALL, LIGHT_KINDS],
      [{ ...NONE, sheets: true }, ['straight', 'scattered']],
    ] as const) {
      const parts = lightParts(features, true);
      expect(parts.flatMap((part) => part.kinds)).toEqual(kinds);
      expect(parts[0]).toMatchObject({ every: 1, deeperEvery: 1 });
    }
  });
});
