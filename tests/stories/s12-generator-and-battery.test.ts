import { describe, expect, it } from 'vitest';
import { powerScene } from '../../src/scene/power/power-scene.ts';
import { poweredScene } from '../support/powered-scenes.ts';
import { halfLastDigit } from '../tolerances.ts';

/**
 * S12: the large discharge head and five small LED heads on one generator for six hours, and a small head on a battery. Every
 * expected figure is derived by hand.
 */
const GENERATOR = { id: 'gen', kind: 'generator', volts: 230, breaker_A: 32 };

describe('S12, generator and battery', () => {
  const plugged = { supply: 'gen' };
  const lamps = [
    ['big', 'discharge', plugged],
    ...Array.from({ length: 5 }, (_, i) => [`led-${i}`, 'led', plugged] as const),
  ] as const;
  const report = powerScene(poweredScene(lamps, [GENERATOR]), { hours: 6 });
  const generator = report.supplies[0]!.generator!;

  it('needs 3.73 kVA, so a 5 kVA set', () => {
    // derived: 2112 + 5 × 173.7 = 2112 + 868 = 2980 VA; /0.8 = 3.73 kVA
    expect(Math.abs(report.total.load_VA - 2980)).toBeLessThan(1);
    expect(Math.abs(report.generator_kVA - 3.73)).toBeLessThan(halfLastDigit(2));
    expect(report.usualGenerator_kVA).toBe(5);
    expect(generator.needed_kVA).toBe(report.generator_kVA);
    expect(generator.usual_kVA).toBe(5);
  });

  it('burns 8.7 L in six hours; 11.3 L with reserve', () => {
    // derived: 2.895 kW × 6 h = 17.4 kWh × 0.5 L/kWh = 8.7 L; × 1.3 = 11.3 L
    expect(report.total.load_W).toBe(2895);
    expect(Math.abs(generator.fuel_L - 8.7)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(generator.fuelWithReserve_L - 11.3)).toBeLessThan(halfLastDigit(1));
    expect(generator.fuel_L_per_h * 6).toBeCloseTo(generator.fuel_L, 12);
  });

  it('and 150 Wh carry 66 W for 1.9 h, in the cold 1.5 h', () => {
    const pack = { id: 'pack', kind: 'battery', volts: 28, capacity_Wh: 150 };
    const [supply] = powerScene(poweredScene([['eye', 'small', { supply: 'pack' }]], [pack])).supplies;
    // derived: 150 × 0.85/66 = 1.93 h; × 0.8 = 1.55 h. Direct current has no power factor: 66 W are 66 VA.
    expect(supply!.load_VA).toBe(66);
    expect(Math.abs(supply!.battery!.hours! - 1.9)).toBeLessThan(halfLastDigit(1));
    expect(Math.abs(supply!.battery!.cold_hours! - 1.5)).toBeLessThan(halfLastDigit(1));
  });
});
