import { describe, expect, it } from 'vitest';
import { batteryHours, coldBatteryHours } from '../../../src/core/electrical/battery.ts';
import { halfLastDigit } from '../../tolerances.ts';

describe('battery', () => {
  it('of 150 Wh lasts 1.9 h at 66 W, 1.5 h in the cold', () => {
    // derived: 150 × 0.85/66 = 1.932; × 0.8 = 1.545 (both factors common practice, no source)
    const hours = batteryHours(150, 66);
    expect(Math.abs(hours - 1.932)).toBeLessThan(halfLastDigit(3));
    expect(Math.abs(coldBatteryHours(hours) - 1.545)).toBeLessThan(1e-3);
  });

  it('refuses no load', () => {
    expect(() => batteryHours(150, 0)).toThrow('load in watts is 0');
    expect(() => batteryHours(-1, 66)).toThrow('capacity in watt-hours is -1');
  });
});
