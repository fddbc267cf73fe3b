import { describe, expect, it } from 'vitest';
import { fuelRate_L_per_h, fuelToBring_L } from '../../../src/core/electrical/fuel.ts';
import { halfLastDigit } from '../../tolerances.ts';

describe('fuel', () => {
  it('for 2.895 kW and six hours is 8.7 L, 11.3 L with reserve', () => {
    // derived: 2.895 kW × 6 h × 0.5 L/kWh = 8.685; × 1.3 = 11.29 (0.5 and 30 % common practice, no source)
    const rate = fuelRate_L_per_h(2895);
    expect(Math.abs(6 * rate - 8.7)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(fuelToBring_L(rate, 6) - 11.3)).toBeLessThan(halfLastDigit(1));
    expect(fuelToBring_L(rate, 6, 0)).toBeCloseTo(8.685, 9);
  });

  it('is none for no load and no time', () => {
    expect(fuelRate_L_per_h(0)).toBe(0);
    expect(fuelToBring_L(1, 0)).toBe(0);
    expect(() => fuelRate_L_per_h(-1)).toThrow('load in watts is -1');
    expect(() => fuelToBring_L(1, -1)).toThrow('hours is -1');
  });
});
