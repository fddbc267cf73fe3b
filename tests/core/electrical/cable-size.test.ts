import { describe, expect, it } from 'vitest';
import {
  CABLE_SIZES_mm2,
  flexibleResistance_ohm_km,
  nextCableSize_mm2,
} from '../../../src/core/electrical/cable-size.ts';
import { copperResistance_ohm_km } from '../../../src/core/electrical/voltage-drop.ts';

describe('cable sizes', () => {
  it('rise, and their resistances fall', () => {
    for (const [i, size] of CABLE_SIZES_mm2.entries()) {
      if (i === 0) continue;
      expect(size).toBeGreaterThan(CABLE_SIZES_mm2[i - 1]!);
      expect(flexibleResistance_ohm_km(size)).toBeLessThan(
        flexibleResistance_ohm_km(CABLE_SIZES_mm2[i - 1]!),
      );
    }
  });

  it('have between 8 and 16 % more resistance than solid copper of their section', () => {
    // derived from the published table (IEC 60228:2004 Table 3, class 5) and IEC 60028 copper
    const shares = CABLE_SIZES_mm2.map(
      (size) => flexibleResistance_ohm_km(size) / copperResistance_ohm_km(size),
    );
    expect(Math.max(...shares)).toBeLessThan(1.16);
    expect(Math.min(...shares)).toBeGreaterThan(1.08);
  });

  it('of other standards take the most that the table has', () => {
    // derived: 12 AWG is 3.31 mm²
    expect(flexibleResistance_ohm_km(3.31)).toBeCloseTo(1.16 * copperResistance_ohm_km(3.31), 12);
    expect(flexibleResistance_ohm_km(3.31, 70) / flexibleResistance_ohm_km(3.31)).toBeCloseTo(1.1965, 4);
  });

  it('are gone through to the next that is thick enough', () => {
    expect(nextCableSize_mm2(2.5, (size) => size >= 7)).toBe(10);
    expect(nextCableSize_mm2(2.5, () => true)).toBe(4);
    expect(nextCableSize_mm2(3.31, () => true)).toBe(4);
    expect(nextCableSize_mm2(300, () => true)).toBeNull();
    expect(nextCableSize_mm2(2.5, () => false)).toBeNull();
  });
});
