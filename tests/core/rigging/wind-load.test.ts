import { describe, expect, it } from 'vitest';
import { windForce_N, windSpeed_m_s } from '../../../src/core/rigging/wind-load.ts';
import { IDENTITY } from '../../tolerances.ts';

describe('wind load', () => {
  it('of a 0.64 m² soft box in 10 m/s is 46 N', () => {
    // derived: ½ · 1.2 · 100 · 1.2 · 0.64 = 46.08 N
    expect(windForce_N(0.64, 10)).toBeCloseTo(46.08, 10);
  });

  it('grows with the square of the speed and with area and drag', () => {
    expect(windForce_N(0.64, 20) / windForce_N(0.64, 10)).toBeCloseTo(4, 12);
    expect(windForce_N(1.28, 10) / windForce_N(0.64, 10)).toBeCloseTo(2, 12);
    expect(windForce_N(0.64, 10, 2.4) / windForce_N(0.64, 10)).toBeCloseTo(2, 12);
    expect(windForce_N(0, 10)).toBe(0);
    expect(windForce_N(0.64, 0)).toBe(0);
  });

  it('gives back the speed of a force', () => {
    for (const v of [0, 0.5, 8, 33])
      expect(Math.abs(windSpeed_m_s(windForce_N(0.64, v), 0.64) - v)).toBeLessThanOrEqual(v * IDENTITY);
  });

  it('refuses what no wind and no area can be', () => {
    expect(() => windForce_N(-1, 10)).toThrow('wind area in m² is -1');
    expect(() => windForce_N(1, -10)).toThrow('wind speed in m/s is -10');
    expect(() => windForce_N(1, 10, 0)).toThrow('drag coefficient is 0');
    expect(() => windSpeed_m_s(10, 0)).toThrow('wind area in m² is 0');
    expect(() => windSpeed_m_s(Number.NaN, 1)).toThrow('force in newtons is NaN');
  });
});
