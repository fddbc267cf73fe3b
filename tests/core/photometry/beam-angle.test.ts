import { describe, expect, it } from 'vitest';
import { beamAngle_deg, fieldAngle_deg } from '../../../src/core/photometry/beam-angle.ts';
import { range, table } from './fixture.ts';

const RADIANS = Math.PI / 180;

describe('beam and field angle', () => {
  it('give back the angles of a beam and those of a cosine', () => {
    const beam = { kind: 'beam', peak_cd: 5, beam_deg: 50, field_deg: 80 } as const;
    expect(beamAngle_deg(beam)).toEqual({ c0_deg: 50, c90_deg: 50, mean_deg: 50 });
    expect(fieldAngle_deg(beam).mean_deg).toBe(80);
    // derived: 2 acos 0.5 and 2 acos 0.1 (L20).
    expect(beamAngle_deg({ kind: 'lambert', peak_cd: 3 }).c0_deg).toBeCloseTo(120, 10);
    expect(fieldAngle_deg({ kind: 'lambert', peak_cd: 3 }).c90_deg).toBeCloseTo(168.5217, 4);
  });

  it('tell the two planes apart, alike in all three goniometries', () => {
    // derived: candela fall linearly to 0 at 40° in the plane of r and at 20° in that of t: 50 % at 20° and 10°.
    const roof = (r_deg: number, t_deg: number): number =>
      Math.max(0, 1 - Math.abs(r_deg) / 40 - Math.abs(t_deg) / 20);
    const grid = range(-90, 90, 5);
    const c = table('C', range(0, 90, 5), range(0, 360, 90), (h, v) =>
      Math.max(0, 1 - v / (h === 90 || h === 270 ? 20 : 40)),
    );
    for (const distribution of [c, table('A', grid, grid, roof), table('B', grid, grid, roof)]) {
      const beam = beamAngle_deg(distribution);
      expect(beam.c0_deg).toBeCloseTo(40, 9);
      expect(beam.c90_deg).toBeCloseTo(20, 9);
      expect(beam.mean_deg).toBeCloseTo(30, 9);
      const field = fieldAngle_deg(distribution);
      expect(field.c0_deg).toBeCloseTo(72, 9);
      expect(field.c90_deg).toBeCloseTo(36, 9);
    }
  });

  it('takes planes between the measured ones from the interpolation', () => {
    // derived: at 20° planes of 0.75 and 0.25 mix to 0.5 midway, at C 90, 180 and 270.
    const at20: Record<number, number> = { 0: 0.5, 60: 0.75, 120: 0.25, 240: 0.75, 300: 0.25, 360: 0.5 };
    const c = table('C', [0, 20, 90], [0, 60, 120, 240, 300, 360], (h, v) =>
      v === 0 ? 1 : v === 20 ? at20[h]! : 0,
    );
    expect(beamAngle_deg(c).c0_deg).toBeCloseTo(40, 9);
    expect(beamAngle_deg(c).c90_deg).toBeCloseTo(40, 9);
  });

  it('holds both lobes of a twin beam, and counts an off-axis beam from flank to flank', () => {
    // derived: lobes at ±30° (1 at 30°, falling linearly to 0 at 20° and 40°): from −35° to 35°.
    const grid = range(-90, 90, 5);
    const lobe = (x: number): number => Math.max(0, 1 - Math.abs(Math.abs(x) - 30) / 10);
    const twin = table('A', grid, grid, (h) => lobe(h));
    expect(beamAngle_deg(twin).c0_deg).toBeCloseTo(70, 9);
    const leaning = table('B', grid, grid, (h) => (h < 0 ? 0 : lobe(h)));
    expect(beamAngle_deg(leaning).c0_deg).toBeCloseTo(10, 9);
  });

  it('counts uplight about its own direction, and light all round as 360', () => {
    // derived: −cos γ over 90…180.
    const up = table('C', range(90, 180, 1), [0], (_, v) => -Math.cos(v * RADIANS));
    expect(beamAngle_deg(up).c0_deg).toBeCloseTo(120, 3);
    expect(beamAngle_deg(table('C', range(0, 180, 5), [0], () => 1)).c0_deg).toBe(360);
    expect(beamAngle_deg(table('C', range(0, 90, 5), [0], () => 1)).c0_deg).toBe(180);
  });

  it('is 0 in a plane without light', () => {
    const side = table('B', range(-90, 90, 10), range(-90, 90, 10), (_, v) => (v > 40 ? 1 : 0));
    expect(beamAngle_deg(side).c0_deg).toBe(0);
    expect(beamAngle_deg(side).c90_deg).toBeGreaterThan(0);
  });
});
