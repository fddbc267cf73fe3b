import { describe, expect, it } from 'vitest';
import { tiltFactor } from '../../../src/core/photometry/tilt.ts';
import { synthetic } from './fixture.ts';

describe('lamp tilt', () => {
  const tilt = synthetic('tilt-include-C.ies').tilt!;

  it('is read whole', () => {
    // derived: the block as written in the file.
    expect(tilt.geometry).toBe(1);
    expect([...tilt.angles_deg]).toEqual([0, 15, 30, 45, 60, 75, 90]);
    expect([...tilt.factors]).toEqual([1, 0.95, 0.94, 0.9, 0.88, 0.87, 0.94]);
  });

  it('is linear between its angles and holds its ends', () => {
    // derived: 22.5° lies halfway between 0.95 and 0.94.
    expect(tiltFactor(tilt, 45)).toBe(0.9);
    expect(tiltFactor(tilt, 22.5)).toBeCloseTo(0.945, 12);
    expect(tiltFactor(tilt, -22.5)).toBeCloseTo(0.945, 12);
    expect(tiltFactor(tilt, 0)).toBe(1);
    expect(tiltFactor(tilt, 90)).toBe(0.94);
    expect(tiltFactor(tilt, 130)).toBe(0.94);
  });

  it('stays out of the candela', () => {
    expect(synthetic('tilt-include-C.ies').distribution.candela[0]).toBe(1000);
  });
});
