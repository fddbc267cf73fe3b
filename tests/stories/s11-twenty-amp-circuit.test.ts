import { describe, expect, it } from 'vitest';
import { powerSheet } from '../../src/paperwork/power-sheet.ts';
import { powerScene } from '../../src/scene/power/power-scene.ts';
import { poweredScene } from '../support/powered-scenes.ts';
import { halfLastDigit } from '../tolerances.ts';

/**
 * S11: one large discharge head, or several small ones, on a 20 A circuit; then 50 m of cable to it. Every expected figure is
 * derived by hand from P/PF, S/V and 2·l·ρ·I/a.
 */
const circuit = (volts: number, more: object = {}) => ({
  id: 'wall',
  name: 'Wall',
  kind: 'mains',
  volts,
  breaker_A: 20,
  ...more,
});
const plugged = { supply: 'wall' };

function onCircuit(head: string, volts: number, more: object = {}) {
  return powerScene(poweredScene([['big', head, plugged]], [circuit(volts, more)]));
}

describe('S11, a 20 A circuit', () => {
  it('counts 2070 W at power factor 0.98 as 2112 VA', () => {
    const [supply] = onCircuit('discharge', 120).supplies;
    // derived: 2070/0.98
    expect(supply!.load_W).toBe(2070);
    expect(Math.abs(supply!.load_VA - 2112)).toBeLessThan(halfLastDigit(0));
  });

  it('at 120 V: 17.6 A, under the breaker but over the 16 A for hours: no', () => {
    const report = onCircuit('discharge', 120);
    const [supply] = report.supplies;
    // derived: 2112/120 = 17.60; 0.8 × 20 = 16
    expect(Math.abs(supply!.current_A - 17.6)).toBeLessThan(halfLastDigit(1));
    expect(supply).toMatchObject({ limit_A: 16, over: true, trips: false });
    expect(powerSheet(report).warnings[0]).toMatch(
      /^Wall: 17\.6 A is under the 20 A breaker but over the 16\.0 A that it carries for hours\./,
    );
  });

  it('with a ballast of power factor 0.6: 28.8 A, which trips', () => {
    const report = onCircuit('raw', 120);
    // derived: 2070/0.6/120 = 28.75
    expect(report.supplies[0]!.current_A).toBeCloseTo(28.75, 9);
    expect(report.supplies[0]).toMatchObject({ over: true, trips: true });
    expect(powerSheet(report).warnings[0]).toMatch(/over the 20 A breaker itself: it trips/);
  });

  it('at 230 V: 9.2 A, within', () => {
    const [supply] = onCircuit('discharge', 230).supplies;
    expect(Math.abs(supply!.current_A - 9.2)).toBeLessThan(halfLastDigit(1));
    expect(supply).toMatchObject({ over: false, trips: false });
  });

  it('takes eleven small LED heads at 120 V; five draw 7.2 A, and six more fit', () => {
    const lamps = Array.from({ length: 5 }, (_, i) => [`led-${i}`, 'led', plugged] as const);
    const [five] = powerScene(poweredScene(lamps, [circuit(120)])).supplies;
    // derived: 165/0.95 = 174 VA = 1.447 A; 5 × 1.447 = 7.24; 16/1.447 = 11.05
    expect(Math.abs(five!.load_VA / 5 - 174)).toBeLessThan(halfLastDigit(0));
    expect(Math.abs(five!.current_A - 7.2)).toBeLessThan(halfLastDigit(1));
    expect(five!.room.find((room) => room.head === 'led')).toEqual({ head: 'led', byCurrent: 6, more: 6 });

    const [none] = powerScene(poweredScene([['led-0', 'led']], [circuit(120)])).supplies;
    expect(none!.room.find((room) => room.head === 'led')!.more).toBe(11);
  });

  it('over 50 m of 2.5 mm² loses 12 V, a tenth; 10 mm² is the next size that cures it', () => {
    const report = onCircuit('discharge', 120, { cable: { length_m: 50, area_mm2: 2.5 } });
    const [supply] = report.supplies;
    // derived: 2 × 50 × 0.0175/2.5 = 0.70 Ω; × 17.6 = 12.3 V (10.3 %); 10 mm² 2.6 %. That is with the round 0.0175 Ω·mm²/m;
    // IEC 60028 copper at 20 °C is 1.5 % below it, hence 2 %, and 3 % where 2.6 is itself rounded.
    expect(Math.abs(supply!.drop_V! / 12.3 - 1)).toBeLessThan(0.02);
    expect(Math.abs(supply!.drop_percent! / 10.3 - 1)).toBeLessThan(0.02);
    expect(supply!.dropOver).toBe(true);
    expect(supply!.cable!.cure!.area_mm2).toBe(10);
    expect(Math.abs(supply!.cable!.cure!.drop_percent / 2.6 - 1)).toBeLessThan(0.03);
    // derived: 6 mm² would still lose 10.3 × 2.5/6 = 4.3 %
    expect(powerSheet(report).warnings.join(' ')).toContain('10 mm² would lose 2.5 %');
  });
});
