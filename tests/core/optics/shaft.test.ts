import { describe, expect, it } from 'vitest';
import { groundShaft } from '../../../src/core/optics/shaft.ts';

const SHAFT = { lampHeight_m: 2.2, lampToGlass_m: 1.5, sill_m: 0.9, head_m: 1.7, sourceWidth_m: 0.1 };

describe('a shaft on the ground', () => {
  it('has edges where similar triangles put them', () => {
    // derived: 1.5·0.9/1.3 = 1.038; 1.5·1.7/0.5 = 5.1; r² = 2.538² + 2.2² = 11.28 and 6.6² + 2.2² = 48.4
    const { near, far, fallOff_stops } = groundShaft(SHAFT)!;
    expect(Math.abs(near.reach_m - 1.0385)).toBeLessThan(1e-4);
    expect(Math.abs(far.reach_m - 5.1)).toBeLessThan(1e-9);
    expect(Math.abs(near.distance_m ** 2 - 11.28)).toBeLessThan(5e-3);
    expect(Math.abs(far.distance_m ** 2 - 48.4)).toBeLessThan(1e-9);
    // derived: 2.2/√11.28 = 0.655, 2.2/√48.4 = 0.316; blur 0.1·5.1/1.5 = 0.34, 0.34/0.316 = 1.075
    expect(Math.abs(near.sinElevation - 0.655)).toBeLessThan(5e-4);
    expect(Math.abs(far.sinElevation - 0.316)).toBeLessThan(5e-4);
    expect(Math.abs(far.mullionBlur_m - 0.34)).toBeLessThan(1e-9);
    expect(Math.abs(far.edgeBlur_m - 1.075)).toBeLessThan(5e-4);
    // derived: E ∝ cos/r² = 2.2/r³: 1.5·log₂(48.4/11.28) = 3.15
    expect(Math.abs(fallOff_stops - 3.15)).toBeLessThan(5e-3);
  });

  it('falls off less with the blind down, and more with the lamp farther back', () => {
    // derived: 1.5·1.4/0.8 = 2.625, r² = 4.125² + 2.2² = 21.86; 1.5·log₂(21.86/11.28) = 1.43
    const blind = groundShaft({ ...SHAFT, head_m: 1.4 })!;
    expect(Math.abs(blind.far.reach_m - 2.625)).toBeLessThan(1e-9);
    expect(Math.abs(blind.fallOff_stops - 1.43)).toBeLessThan(5e-3);
    expect(groundShaft({ ...SHAFT, lampToGlass_m: 3 })!.fallOff_stops).toBeGreaterThan(3.15);
  });

  it('has no end where the head is not below the lamp, and does not exist where the sill is not', () => {
    expect(groundShaft({ ...SHAFT, head_m: 2.2 })!.far.reach_m).toBe(Number.POSITIVE_INFINITY);
    expect(groundShaft({ ...SHAFT, lampHeight_m: 0.9 })).toBeNull();
    expect(() => groundShaft({ ...SHAFT, head_m: 0.9 })).toThrow('the sill must be lower');
    expect(() => groundShaft({ ...SHAFT, lampToGlass_m: 0 })).toThrow(
      'distance from lamp to glass in m is 0',
    );
  });
});
