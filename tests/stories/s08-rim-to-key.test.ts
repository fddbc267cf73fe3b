import { describe, expect, it } from 'vitest';
import { rimToKey } from '../../src/core/exposure/lighting-ratio.ts';
import { halfLastDigit } from '../tolerances.ts';
import { backlightScene, straight } from './support/backlight.ts';

/** Key: a soft box of 125 lx at 4 m, one stop under 250 lx. */
const KEY_LX = 125;

describe('S8: rim against key', () => {
  const rim = (changes = {}) =>
    straight(backlightScene({ haze: { visibility_m: 200 }, ...changes })).illuminance_lx;

  it('is 1.1:1, +0.13 stop: too weak for a night', () => {
    // derived: 137.4 lx (S2 in haze)/125 = 1.099; log₂ = 0.136
    const ratio = rimToKey(rim(), KEY_LX);
    expect(Math.abs(ratio - 1.1)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(Math.log2(ratio) - 0.13)).toBeLessThan(0.01);
  });

  it('is 3.0:1, +1.6 stops, spotted in to 30° with the same lumens', () => {
    // derived: 82 500 lm in 2π(1 − cos 15°) = 0.2141 sr: 385 300 cd; ·0.6132/25² = 378 lx; /125 = 3.02; log₂ = 1.60
    const peak_cd = 82_500 / (2 * Math.PI * (1 - Math.cos(Math.PI / 12)));
    const scene = backlightScene();
    const big = {
      ...scene.heads!.big!,
      photometry: { kind: 'beam' as const, peak_cd, beam_deg: 30, field_deg: 50 },
    };
    const spotted = rim({ heads: { big } });
    expect(Math.abs(spotted - 378)).toBeLessThan(1);
    const ratio = rimToKey(spotted, KEY_LX);
    expect(Math.abs(ratio - 3)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(Math.log2(ratio) - 1.6)).toBeLessThan(halfLastDigit(1));
    // derived: 2·25·tan 15° = 13.4 m, between the half-strength edges
    expect(Math.abs(2 * 25 * Math.tan(Math.PI / 12) - 13.4)).toBeLessThan(halfLastDigit(1));
  });
});
