import { describe, expect, it } from 'vitest';
import {
  copperResistance_ohm_km,
  threePhaseVoltageDrop_V,
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

  it('refuses impossible cables', () => {
    expect(() => copperResistance_ohm_km(0)).toThrow('conductor cross-section in mm² is 0');
    expect(() => voltageDrop_V(-1, 16, 7)).toThrow('cable length in metres is -1');
    expect(() => voltageDrop_V(1, Number.NaN, 7)).toThrow('current in amperes is NaN');
    expect(() => threePhaseVoltageDrop_V(1, 1, 7, 0)).toThrow('power factor is 0');
    // derived: ρ(T) reaches zero near −234 °C, where the linear law has lost its meaning
    expect(() => voltageDrop_V(1, 1, copperResistance_ohm_km(2.5, -300))).toThrow('resistance in ohms');
  });
});
