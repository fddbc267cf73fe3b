import { describe, expect, it } from 'vitest';
import { EXPOSURE_STOPS } from '../tolerances.ts';
import { backlightScene, straight } from './support/backlight.ts';

describe('S4: the backlight rakes along a side', () => {
  it('gives it 34.5 lx, −2.9 stops, from 2 m out and 20 m along', () => {
    const mark = straight(
      backlightScene({
        lamps: [{ id: 'back', head: 'big', position_m: [20, 1.5, 2], aim_m: [0, 1.5, 0] }],
        marks: [{ id: 'side', position_m: [0, 1.5, 0], facing: [0, 0, 1], receptor: 'flat' }],
      }),
    );
    // derived: r² = 404; 140 000/404 = 346.5; cos = 2/20.1 = 0.0995; 34.48 lx; log₂(34.48/250) = −2.858.
    expect(Math.abs(mark.illuminance_lx / 34.48 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(mark.stops + 2.858)).toBeLessThan(EXPOSURE_STOPS);
    // derived: 90° − asin(2/20.1) = 84.29° from the side's normal.
    expect(mark.lamps[0]!.incidence_deg).toBeCloseTo(84.29, 2);
  });
});
