import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleOfView_deg, croppedSensor_mm, fieldOfView } from '../../../src/core/optics/field-of-view.ts';

describe('field of view', () => {
  it('crops to the aspect and keeps as much of the sensor as it can', () => {
    // derived: 36 × 24 is 3:2; wider frames lose height, narrower ones width
    expect(croppedSensor_mm([36, 24], 1.5)).toEqual([36, 24]);
    expect(croppedSensor_mm([36, 24], 2)).toEqual([36, 18]);
    expect(croppedSensor_mm([36, 24], 1)).toEqual([24, 24]);
  });

  it('always has the aspect asked for, between the tangents of the half angles', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.4, max: 4, noNaN: true }),
        fc.double({ min: 8, max: 400, noNaN: true }),
        (aspect, focal_mm) => {
          const { horizontal_deg, vertical_deg } = fieldOfView([24.89, 18.66], aspect, focal_mm);
          const half = (angle_deg: number) => Math.tan((angle_deg * Math.PI) / 360);
          expect(half(horizontal_deg) / half(vertical_deg) / aspect).toBeCloseTo(1, 11);
        },
      ),
      { seed: 35, numRuns: 100 },
    );
  });

  it('refuses impossible cameras', () => {
    expect(() => angleOfView_deg(36, 0)).toThrow('focal length in mm is 0');
    expect(() => fieldOfView([0, 24], 1.5, 35)).toThrow('sensor width is 0');
    expect(() => fieldOfView([36, 24], Number.NaN, 35)).toThrow('frame aspect is NaN');
  });
});
