import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blurDisc_mm,
  circleOfConfusion_mm,
  hyperfocal_m,
  pupil_mm,
  sharpRange,
} from '../../../src/core/optics/depth-of-field.ts';
import { halfLastDigit } from '../../tolerances.ts';

const near = (got: number, wanted: number, tolerance: number) =>
  expect(Math.abs(got - wanted), `${got} for ${wanted}`).toBeLessThanOrEqual(tolerance);

describe('depth of field', () => {
  it('has the hyperfocal distances of published calculators, plus f', () => {
    // published: f²/(N·c) 15 625 mm (50 mm f/8 c 0.02) and 3712.12 mm (35 mm f/11 c 0.03), public calculators; the exact form adds f
    near(hyperfocal_m({ focal_mm: 50, fNumber: 8, circle_mm: 0.02 }) * 1000 - 50, 15_625, halfLastDigit(2));
    near(hyperfocal_m({ focal_mm: 35, fNumber: 11, circle_mm: 0.03 }) * 1000 - 35, 3712.12, halfLastDigit(2));
  });

  it.each([
    // derived: near = s(H − f)/(H + s − 2f), far = s(H − f)/(H − s), worked out by hand to 0.01 mm
    [50, 8, 0.03, 3, 2337.91, 4185.27],
    [35, 2.8, 0.025, 2, 1798.1, 2252.98],
    [85, 1.4, 0.03, 2, 1977.98, 2022.52],
    [25, 5.6, 0.015, 5, 2996.45, 15_089.33],
  ])(
    'has the exact limits of %d mm f/%d c %d at %d m',
    (focal_mm, fNumber, circle_mm, focus_m, nearest, farthest) => {
      const range = sharpRange({ focal_mm, fNumber, circle_mm }, focus_m);
      near(range.near_m * 1000, nearest, 0.01);
      near(range.far_m * 1000, farthest, 0.01);
    },
  );

  it('reaches from half the hyperfocal distance to infinity when focused there', () => {
    // published: the rule of the hyperfocal distance, in every handbook
    const setting = { focal_mm: 35, fNumber: 5.6, circle_mm: 0.03 };
    const H = hyperfocal_m(setting);
    near(sharpRange(setting, H).near_m, H / 2, 1e-12);
    expect(sharpRange(setting, H).far_m).toBe(Number.POSITIVE_INFINITY);
  });

  it('draws a point at 6 m 0.15133 mm wide, 50 mm f/2.8 focused at 3 m', () => {
    // derived: 50²/2.8·(3/6)/(3000 − 50)
    near(blurDisc_mm(50, 2.8, 3, 6), 0.15133, halfLastDigit(5));
  });

  it('has blur of exactly the circle at both limits', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 12, max: 200, noNaN: true }),
        fc.double({ min: 1, max: 22, noNaN: true }),
        fc.double({ min: 0.5, max: 50, noNaN: true }),
        (focal_mm, fNumber, focus_m) => {
          const setting = { focal_mm, fNumber, circle_mm: 0.03 };
          const { near_m, far_m } = sharpRange(setting, focus_m);
          expect(blurDisc_mm(focal_mm, fNumber, focus_m, near_m) / 0.03).toBeCloseTo(1, 9);
          if (Number.isFinite(far_m) && far_m < 1e6)
            expect(blurDisc_mm(focal_mm, fNumber, focus_m, far_m) / 0.03).toBeCloseTo(1, 6);
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });

  it('takes the circle from the picture and the pupil from f and N', () => {
    // derived: √(36² + 24²)/1500 = 0.02884 mm; 35/4
    near(circleOfConfusion_mm([36, 24]), 0.02884, halfLastDigit(5));
    expect(pupil_mm(35, 4)).toBe(8.75);
  });

  it('refuses a focus within the focal length', () => {
    expect(() => sharpRange({ focal_mm: 100, fNumber: 4, circle_mm: 0.03 }, 0.1)).toThrow(
      'focus distance is 0.1 m; it must be more than the focal length, 0.1 m',
    );
    expect(() => blurDisc_mm(50, 0, 3, 6)).toThrow('f-number is 0');
  });
});
