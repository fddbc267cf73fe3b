import { describe, expect, it } from 'vitest';
import { extinction_per_m } from '../../src/core/haze/extinction.ts';
import { beamAngle_deg } from '../../src/core/photometry/beam-angle.ts';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { EXPOSURE_STOPS, halfLastDigit } from '../tolerances.ts';
import { backlightScene, NO_FILES, straight } from './support/backlight.ts';

/** 0.3 m of face at 25 m: 1 − 25²/(25² + 0.15²) = 4e-5. */
const FACE = 1e-4;

describe('S2: a large discharge head 25 m behind the figures', () => {
  it('gives 224 lx, −0.16 stop, in clear air', () => {
    const mark = straight(backlightScene());
    // derived: 140 000/25² = 224; log₂(224/250) = −0.158.
    expect(Math.abs(mark.illuminance_lx / 224 - 1)).toBeLessThan(FACE);
    expect(Math.abs(mark.stops + 0.158)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('gives 137 lx, −0.86 stop, in haze of 200 m visibility, which takes 0.71 stop', () => {
    const clear = straight(backlightScene());
    const hazy = straight(backlightScene({ haze: { visibility_m: 200 } }));
    // derived: σ = ln 50/200 = 0.01956; e^(−0.489) = 0.6132; 224·0.6132 = 137.4; log₂(137.4/250) = −0.864.
    expect(extinction_per_m(200)).toBeCloseTo(0.01956, 5);
    expect(Math.abs(hazy.illuminance_lx - 137.4)).toBeLessThan(0.1);
    expect(Math.abs(hazy.stops + 0.86)).toBeLessThan(EXPOSURE_STOPS);
    expect(Math.abs(hazy.stops - clear.stops + 0.71)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('lights 23.3 m across at the figures, between the half-strength edges', () => {
    const { lamps } = compileScene(backlightScene(), NO_FILES);
    const angles = beamAngle_deg(lamps[0]!.distribution);
    // derived: 2·25·tan(25°) = 23.32 m.
    for (const beam_deg of [angles.c0_deg, angles.c90_deg])
      expect(Math.abs(2 * 25 * Math.tan((beam_deg * Math.PI) / 360) - 23.3)).toBeLessThan(halfLastDigit(1));
  });

  it('is known to ±1 stop when only its lumens are, and the haze adds what it takes', () => {
    const scene = backlightScene();
    const lumens = backlightScene({
      heads: {
        big: {
          ...scene.heads!.big!,
          photometry: { kind: 'lumens', flux_lm: 165_000, beam_deg: 50, field_deg: 80 },
        },
      },
    });
    expect(straight(lumens).uncertainty.input_stops).toBeCloseTo(1, 9);
    // derived: √(⅔² + 0.706²) = 0.971 with a stated beam in haze that takes 0.706 stop.
    const hazy = straight(backlightScene({ haze: { visibility_m: 200 } }));
    expect(Math.abs(hazy.uncertainty.input_stops - 0.971)).toBeLessThan(0.001);
  });

  it('from lumens is the profile integrated, near the cone that a hand takes for it', () => {
    const scene = backlightScene({
      heads: {
        big: {
          ...backlightScene().heads!.big!,
          photometry: { kind: 'lumens', flux_lm: 165_000, beam_deg: 50, field_deg: 80 },
        },
      },
    });
    // derived by hand: half of 165 000 lm in 2π(1 − cos 25°) = 0.589 sr is 140 000 cd, as if the beam were even and half of
    // the light beyond it. The profile is neither: what it says lies within a stop, the ± of lumens.
    const stops = Math.log2(straight(scene).illuminance_lx / 224);
    expect(Math.abs(stops)).toBeLessThan(1);
  });
});
