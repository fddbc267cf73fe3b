import { describe, expect, it } from 'vitest';
import type { Distribution } from '../../../src/core/photometry/distribution.ts';
import { intensityToward } from '../../../src/core/photometry/intensity.ts';
import { IDENTITY } from '../../tolerances.ts';
import { range, table, towardA, towardB, towardC } from './fixture.ts';

const BEAM: Distribution = { kind: 'beam', peak_cd: 140_000, beam_deg: 50, field_deg: 80 };

describe('beam', () => {
  it('passes through the peak, 50 % at the beam angle and 10 % at the field angle', () => {
    // derived: definitions of the two angles, which are full angles (IES LS-1).
    expect(towardC(BEAM, 0, 0)).toBe(140_000);
    for (const c of [0, 37, 90, 200, 359]) {
      expect(towardC(BEAM, c, 25) / 70_000).toBeCloseTo(1, 12);
      expect(towardC(BEAM, c, 40) / 14_000).toBeCloseTo(1, 12);
    }
  });

  it('is a Gaussian where the squares of the angles stand as log 10 to log 2', () => {
    // derived: p = 2 gives I = I0 · 2^−(α/(θb/2))².
    const gaussian: Distribution = {
      kind: 'beam',
      peak_cd: 1,
      beam_deg: 20,
      field_deg: 20 * Math.sqrt(Math.log2(10)),
    };
    for (const alpha of [1, 5, 14, 30]) {
      expect(Math.abs(towardC(gaussian, 12, alpha) / 2 ** -((alpha / 10) ** 2) - 1)).toBeLessThan(1e-11);
    }
  });

  it('keeps its digits a millionth of a degree off the axis', () => {
    // derived: with p = 1 the loss is linear in α: I = I0 · 2^(−2α/θb). acos would give 0 or 1.2e-6 degrees here.
    const linear: Distribution = {
      kind: 'beam',
      peak_cd: 1,
      beam_deg: 1e-3,
      field_deg: 1e-3 * Math.log2(10),
    };
    const alpha_deg = 1e-6;
    expect(Math.abs(towardC(linear, 45, alpha_deg) / 2 ** ((-2 * alpha_deg) / 1e-3) - 1)).toBeLessThan(
      IDENTITY,
    );
  });

  it('never rises away from the axis and never becomes negative or undefined', () => {
    for (const [beam_deg, field_deg] of [
      [0.01, 170],
      [50, 50.0000001],
      [180, 359],
    ] as const) {
      const beam: Distribution = { kind: 'beam', peak_cd: 1, beam_deg, field_deg };
      let before = Number.POSITIVE_INFINITY;
      for (const alpha of range(0, 180, 1)) {
        const I = towardC(beam, 0, alpha);
        expect(I).toBeGreaterThanOrEqual(0);
        expect(I).toBeLessThanOrEqual(before);
        before = I;
      }
    }
  });
});

describe('Lambertian face', () => {
  it('follows the cosine in front and is dark behind', () => {
    // derived: I = I0 cos α.
    const lambert: Distribution = { kind: 'lambert', peak_cd: 200 };
    expect(towardC(lambert, 77, 60)).toBeCloseTo(100, 10);
    expect(towardC(lambert, 77, 90)).toBeCloseTo(0, 10);
    expect(towardC(lambert, 77, 120)).toBe(0);
  });
});

describe('senses of the angles', () => {
  // One bright node each; the direction is written in r (right), t (top), a (axis).
  const s = Math.SQRT1_2;

  it('type C turns from right to top, counter-clockwise seen from above where the axis points down', () => {
    const lit = table('C', [0, 45, 90], range(0, 360, 90), (h, v) => (h === 90 && v === 45 ? 1 : 0));
    expect(intensityToward(lit, 0, s, s)).toBeCloseTo(1, 12);
    expect(intensityToward(lit, s, 0, s)).toBeCloseTo(0, 12);
    expect(intensityToward(lit, 0, -s, s)).toBeCloseTo(0, 12);
  });

  it('types A and B turn to the right (clockwise seen from above) and rise to the top', () => {
    for (const goniometry of ['A', 'B'] as const) {
      const right = table(goniometry, [-90, 0, 90], [-45, 0, 45], (h, v) => (h === 45 && v === 0 ? 1 : 0));
      expect(intensityToward(right, s, 0, s)).toBeCloseTo(1, 12);
      expect(intensityToward(right, -s, 0, s)).toBeCloseTo(0, 12);
      const top = table(goniometry, [-45, 0, 45], [-90, 0, 90], (h, v) => (h === 0 && v === 45 ? 1 : 0));
      expect(intensityToward(top, 0, s, s)).toBeCloseTo(1, 12);
      expect(intensityToward(top, 0, -s, s)).toBeCloseTo(0, 12);
    }
  });

  it('has the pole of type A at the top and that of type B at the right', () => {
    // At a pole the turning angle does not matter: all planes carry the value there.
    const a = table('A', [-90, 0, 90], [-90, 0, 90], (_, v) => (v === 90 ? 7 : 0));
    expect(intensityToward(a, 0, 1, 0)).toBeCloseTo(7, 12);
    const b = table('B', [-90, 0, 90], [-90, 0, 90], (h) => (h === 90 ? 7 : 0));
    expect(intensityToward(b, 1, 0, 0)).toBeCloseTo(7, 12);
  });

  it('agrees with the relations between the B and C systems', () => {
    // published: tan B = cos C · tan γ, sin β = sin C · sin γ (F12, EULUMDAT converter note), with C counted from the
    // plane that B turns in; that plane holds the lamp's top here, so C is 90° less the C of the lamp frame.
    const steps = range(-90, 90, 1);
    const tableB = table('B', steps, steps, (h) => h + 90);
    const tableV = table('B', steps, steps, (_, v) => v + 90);
    for (const [c, gamma] of [
      [20, 30],
      [75, 60],
      [130, 45],
      [300, 80],
    ] as const) {
      const [C, g] = [((90 - c) * Math.PI) / 180, (gamma * Math.PI) / 180];
      const beta_deg = (Math.asin(Math.sin(C) * Math.sin(g)) * 180) / Math.PI;
      const B_deg = (Math.atan(Math.cos(C) * Math.tan(g)) * 180) / Math.PI;
      expect(towardC(tableB, c, gamma) - 90).toBeCloseTo(beta_deg, 9);
      expect(towardC(tableV, c, gamma) - 90).toBeCloseTo(B_deg, 9);
    }
  });
});

describe('tables', () => {
  it('are bilinear in the angles of the file', () => {
    // derived: a function that is bilinear in the angles is returned exactly, on uneven grids too.
    const f = (h: number, v: number): number => 3 + 0.5 * v + 0.25 * h + 0.01 * h * v;
    const uneven = [0, 1, 2.5, 7, 20, 33, 60, 61, 90];
    const c = table('C', uneven, [0, 10, 15, 90, 200, 360], f);
    for (const [h, v] of [
      [0, 0.5],
      [3, 2.5],
      [12, 8],
      [100, 60.5],
      [359, 89],
    ] as const) {
      expect(towardC(c, h, v)).toBeCloseTo(f(h, v), 9);
    }
    const signed = [-90, -30, -1, 0, 4, 50, 90];
    const g = (h: number, v: number): number => 1000 + v + 2 * h + 0.01 * h * v;
    for (const [h, v] of [
      [-60, 3],
      [2, -0.5],
      [45, 70],
      [89, -89],
    ] as const) {
      expect(towardA(table('A', signed, signed, g), h, v)).toBeCloseTo(g(h, v), 9);
      expect(towardB(table('B', signed, signed, g), h, v)).toBeCloseTo(g(h, v), 9);
    }
  });

  it('run on across the seam at C 0', () => {
    const c = table('C', [0, 90], [0, 90, 180, 270, 360], (h) => Math.abs(180 - h));
    // derived: 180 at C 0 falls by 1 a degree to both sides.
    expect(towardC(c, 359, 45)).toBeCloseTo(179, 9);
    expect(towardC(c, 1, 45)).toBeCloseTo(179, 9);
    expect(towardC(c, 0, 45)).toBeCloseTo(180, 9);
  });

  it('are zero outside the measured range, whole on its edge', () => {
    const up = table('C', [90, 180], [0], () => 5);
    expect(towardC(up, 10, 89.999)).toBe(0);
    for (const c of range(0, 359, 7)) expect(towardC(up, c, 90)).toBe(5);
    expect(intensityToward(up, 0, 0, -1)).toBe(5);
    const narrow = table('B', [-30, 30], [-45, 45], () => 5);
    expect(towardB(narrow, 44.9, 29.9)).toBe(5);
    expect(towardB(narrow, 45.1, 0)).toBe(0);
    expect(towardB(narrow, 0, 30.1)).toBe(0);
    expect(intensityToward(narrow, 0, 0, -1)).toBe(0);
    expect(
      intensityToward(
        table('A', [-30, 30], [-45, 45], () => 5),
        0,
        0,
        -1,
      ),
    ).toBe(0);
  });
});
