import { describe, expect, it } from 'vitest';
import { angleOfView_deg, fieldOfView } from '../../src/core/optics/field-of-view.ts';

describe('angle of view', () => {
  it('is 39.598° for 36 mm behind 50 mm and 39.148° for 24.89 mm behind 35 mm', () => {
    // derived: 2·atan(w/2f)
    expect(Math.abs(angleOfView_deg(36, 50) - 39.598)).toBeLessThan(1e-3);
    expect(Math.abs(angleOfView_deg(24.89, 35) - 39.148)).toBeLessThan(1e-3);
  });

  it('is 27.2° to either side for 35 mm on 36 × 24, uncropped in width at 16:9', () => {
    // derived: atan(18/35)
    const view = fieldOfView([36, 24], 16 / 9, 35);
    expect(Math.abs(view.horizontal_deg / 2 - 27.2)).toBeLessThan(0.05);
    expect(Math.abs(view.vertical_deg / 2 - (Math.atan(10.125 / 35) * 180) / Math.PI)).toBeLessThan(1e-9);
  });
});
