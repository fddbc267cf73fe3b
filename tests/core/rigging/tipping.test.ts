import { describe, expect, it } from 'vitest';
import { heldMoment_Nm, massToHold_kg, tippingArm_m } from '../../../src/core/rigging/tipping.ts';
import { windForce_N } from '../../../src/core/rigging/wind-load.ts';

describe('tipping', () => {
  it('of a 0.64 m² soft box at 3 m in 10 m/s, feet on 0.5 m, is held by 56 kg', () => {
    // derived: 46.08 N × 3 m = 138.24 N·m; /(9.81 × 0.25) = 56.4 kg
    const moment = windForce_N(0.64, 10) * 3;
    expect(moment).toBeCloseTo(138.24, 10);
    expect(Math.abs(massToHold_kg(moment, 0.5) - 56.37)).toBeLessThan(0.005);
  });

  it('is over the side of the triangle, half the foot radius from the middle', () => {
    // derived: distance from the origin to the line through two corners of an equilateral triangle, by the cross product
    const corner = (k: number) => [Math.cos((2 * Math.PI * k) / 3), Math.sin((2 * Math.PI * k) / 3)] as const;
    const [ax, ay] = corner(0);
    const [bx, by] = corner(1);
    const side = Math.hypot(bx - ax, by - ay);
    expect(tippingArm_m(0.8)).toBeCloseTo((0.8 * Math.abs(ax * by - ay * bx)) / side, 12);
  });

  it('holds what it needs, no more', () => {
    expect(heldMoment_Nm(massToHold_kg(138.24, 0.5), 0.5)).toBeCloseTo(138.24, 10);
    expect(heldMoment_Nm(0, 0.5)).toBe(0);
  });

  it('refuses what cannot stand', () => {
    expect(() => tippingArm_m(0)).toThrow('foot radius in metres is 0');
    expect(() => heldMoment_Nm(-1, 0.5)).toThrow('mass in kilograms is -1');
    expect(() => massToHold_kg(-1, 0.5)).toThrow('moment in N·m is -1');
  });
});
