import { describe, expect, it } from 'vitest';
import { neutralCurrent_A } from '../../../src/core/electrical/neutral.ts';
import {
  copperResistance_ohm_km,
  phaseVoltageDrops_V,
  voltageDrop_V,
} from '../../../src/core/electrical/voltage-drop.ts';

describe('voltage drop', () => {
  it('is proportional to length and current and falls with cross-section', () => {
    const drop = voltageDrop_V(50, 16, copperResistance_ohm_km(2.5));
    expect(voltageDrop_V(100, 16, copperResistance_ohm_km(2.5)) / drop).toBeCloseTo(2, 12);
    expect(voltageDrop_V(50, 8, copperResistance_ohm_km(2.5)) / drop).toBeCloseTo(0.5, 12);
    expect(voltageDrop_V(50, 16, copperResistance_ohm_km(10)) / drop).toBeCloseTo(0.25, 12);
    expect(voltageDrop_V(0, 16, 7)).toBe(0);
  });

  it('to neutral is one way for balanced phases, and there and back for a phase alone', () => {
    const R = copperResistance_ohm_km(2.5);
    const oneWay = voltageDrop_V(50, 16, R) / 2;
    for (const drop of phaseVoltageDrops_V(50, [16, 16, 16], R)) expect(drop).toBeCloseTo(oneWay, 12);
    const [alone, ...others] = phaseVoltageDrops_V(50, [16, 0, 0], R);
    expect(alone).toBeCloseTo(2 * oneWay, 12);
    // derived: the neutral's −1 · cos 120° lifts the two phases that carry nothing by half of one way
    for (const rise of others) expect(rise).toBeCloseTo(-oneWay / 2, 12);
  });

  it('to neutral is what phasors say, for unequal phases', () => {
    // derived: Re[(I_k + I_N)·e^(+jk·120°)]·R·l with I_N the sum of the three phasors
    const R = copperResistance_ohm_km(4);
    const I = [9.2, 3.1, 6.7] as const;
    const angle = (k: number) => (-2 * Math.PI * k) / 3;
    const re = I.reduce((sum, current, k) => sum + current * Math.cos(angle(k)), 0);
    const im = I.reduce((sum, current, k) => sum + current * Math.sin(angle(k)), 0);
    for (const [k, drop] of phaseVoltageDrops_V(30, I, R).entries()) {
      const along = re * Math.cos(angle(k)) + im * Math.sin(angle(k));
      expect(drop).toBeCloseTo((I[k]! + along) * R * 0.03, 12);
    }
    expect(neutralCurrent_A(I)).toBeCloseTo(Math.hypot(re, im), 12);
  });

  it('refuses impossible cables', () => {
    expect(() => copperResistance_ohm_km(0)).toThrow('conductor cross-section in mm² is 0');
    expect(() => voltageDrop_V(-1, 16, 7)).toThrow('cable length in metres is -1');
    expect(() => voltageDrop_V(1, Number.NaN, 7)).toThrow('current in amperes is NaN');
    expect(() => phaseVoltageDrops_V(1, [1, -1, 1], 7)).toThrow('current in amperes is -1');
    // derived: ρ(T) reaches zero near −234 °C, where the linear law has lost its meaning
    expect(() => voltageDrop_V(1, 1, copperResistance_ohm_km(2.5, -300))).toThrow('resistance in ohms');
  });
});
