import { describe, expect, it } from 'vitest';
import { stopsAbove } from '../../src/core/exposure/stops.ts';
import { extinction_per_m } from '../../src/core/haze/extinction.ts';
import { henyeyGreenstein } from '../../src/core/haze/henyey-greenstein.ts';
import { EXPOSURE_STOPS } from '../tolerances.ts';
import { backlightScene, straight } from './support/backlight.ts';

/** Luminance of a lit stretch of thin haze by single scattering, all of what it takes scattered: L = E·σ·p(θ)·s. */
function glow_cd_m2(
  illuminance_lx: number,
  visibility_m: number,
  angle_deg: number,
  stretch_m: number,
): number {
  const p = henyeyGreenstein(0.8, Math.cos((angle_deg * Math.PI) / 180));
  return illuminance_lx * extinction_per_m(visibility_m) * p * stretch_m;
}

describe('S3: the glow of 3 m of haze in the backlight of S2', () => {
  const { illuminance_lx } = straight(backlightScene({ haze: { visibility_m: 200 } }));
  const behind = glow_cd_m2(illuminance_lx, 200, 20, 3);
  const frontal = glow_cd_m2(illuminance_lx, 200, 160, 3);

  it('is 4.6 cd/m², −1.45 stops, for a camera 20° off the beam', () => {
    // derived: p(20°) = 0.36/(4π·(1.64 − 1.6·cos 20°)^1.5) = 0.568; 137.4·0.01956·0.568·3 = 4.58; log₂(4.58/12.5) = −1.449.
    expect(henyeyGreenstein(0.8, Math.cos((20 * Math.PI) / 180))).toBeCloseTo(0.568, 3);
    expect(Math.abs(behind - 4.58)).toBeLessThan(0.01);
    expect(Math.abs(stopsAbove(behind, 12.5) + 1.45)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('is 0.041 cd/m², −8.2 stops, for one on the side of the lamp', () => {
    // derived: p(160°) = 0.36/(4π·(1.64 + 1.6·cos 20°)^1.5) = 0.00514; 0.0414 cd/m²; log₂(0.0414/12.5) = −8.24.
    expect(Math.abs(frontal - 0.0414)).toBeLessThan(0.0001);
    expect(Math.abs(stopsAbove(frontal, 12.5) + 8.24)).toBeLessThan(EXPOSURE_STOPS);
  });

  it('is 110 times as bright from behind as from the front', () => {
    // derived: the ratio of the phase function alone, (3.1435/0.1365)^1.5 = 110.5.
    expect(Math.abs(behind / frontal - 110.5)).toBeLessThan(0.5);
  });
});
