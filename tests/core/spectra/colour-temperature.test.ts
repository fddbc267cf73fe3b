import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { uv1960FromXy, uv1960Of, xyOf } from '../../../src/core/spectra/chromaticity.ts';
import { colourTemperatureAt, colourTemperatureOf } from '../../../src/core/spectra/colour-temperature.ts';
import { miredFromKelvin } from '../../../src/core/spectra/mired.ts';
import { tristimulusOf } from '../../../src/core/spectra/observer.ts';
import { planckSpectrum } from '../../../src/core/spectra/planck.ts';
import { planckianUv } from '../../../src/core/spectra/planckian-locus.ts';

describe('the Planckian locus', () => {
  it('is the tristimulus sum of the black body', () => {
    for (const T of [1000, 3200, 6500, 25000]) {
      const { u, v } = uv1960Of(tristimulusOf(planckSpectrum(T)));
      const p = planckianUv(miredFromKelvin(T));
      expect(p.u).toBeCloseTo(u, 13);
      expect(p.v).toBeCloseTo(v, 13);
    }
  });

  it('has the derivative that its own differences show', () => {
    // derived: central difference, error of order h²
    const h = 1e-3;
    for (const mired of [5, 40, 180, 312, 1000]) {
      const p = planckianUv(mired);
      const [a, b] = [planckianUv(mired - h), planckianUv(mired + h)];
      expect(Math.abs((b.u - a.u) / (2 * h) - p.du)).toBeLessThan(1e-9);
      expect(Math.abs((b.v - a.v) / (2 * h) - p.dv)).toBeLessThan(1e-9);
    }
  });
});

describe('correlated colour temperature', () => {
  it("returns a black body's own temperature, Duv 0, from 840 K to 500 000 K", () => {
    // derived: a point of the locus is its own nearest point
    fc.assert(
      fc.property(fc.double({ min: 2, max: 1190, noNaN: true }), (mired) => {
        const found = colourTemperatureOf(tristimulusOf(planckSpectrum(1e6 / mired)))!;
        expect(Math.abs(1e6 / found.cct_K - mired)).toBeLessThan(1e-6);
        expect(Math.abs(found.duv)).toBeLessThan(1e-9);
        expect(found.white).toBe(true);
      }),
      { seed: 1960, numRuns: 200 },
    );
  });

  it('returns temperature and Duv of a point set off at right angles from the locus', () => {
    // derived: the foot of a perpendicular shorter than the radius of curvature is the nearest point
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 900, noNaN: true }),
        fc.double({ min: -0.02, max: 0.02, noNaN: true }),
        (mired, duv) => {
          const p = planckianUv(mired);
          const speed = Math.hypot(p.du, p.dv);
          // The locus runs toward larger u as mired grows; the normal with a positive v part points above it.
          const found = colourTemperatureAt({
            u: p.u - (duv * p.dv) / speed,
            v: p.v + (duv * p.du) / speed,
          });
          expect(Math.abs(1e6 / found.cct_K - mired)).toBeLessThan(1e-5);
          expect(Math.abs(found.duv - duv)).toBeLessThan(1e-9);
        },
      ),
      { seed: 2014, numRuns: 200 },
    );
  });

  it('finds no nearer point than a fine search does, anywhere on the diagram', () => {
    // derived: naive oracle, every 0.05 mired
    const locus = Array.from({ length: 24980 }, (_, i) => planckianUv(1 + i * 0.05));
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.6, noNaN: true }),
        fc.double({ min: 0.1, max: 0.39, noNaN: true }),
        (u, v) => {
          const naive = Math.min(...locus.map((p) => Math.hypot(p.u - u, p.v - v)));
          expect(Math.abs(colourTemperatureAt({ u, v }).duv)).toBeLessThan(naive + 1e-12);
        },
      ),
      { seed: 31, numRuns: 40 },
    );
  });

  it('does not call a colour white beyond Duv 0.05 or off the ends of the locus', () => {
    // published: CIE 15:2018, no CCT beyond a distance of 0.05
    const p = planckianUv(miredFromKelvin(4000));
    const speed = Math.hypot(p.du, p.dv);
    const off = (duv: number) => ({ u: p.u - (duv * p.dv) / speed, v: p.v + (duv * p.du) / speed });
    expect(colourTemperatureAt(off(-0.0499)).white).toBe(true);
    expect(colourTemperatureAt(off(-0.0501)).white).toBe(false);
    // derived: beyond infinite temperature, and a deep red; both within 0.05 of an end
    expect(colourTemperatureAt({ u: 0.17, v: 0.25 })).toMatchObject({ cct_K: 1e6, white: false });
    expect(colourTemperatureAt({ u: 0.53, v: 0.347 })).toMatchObject({ cct_K: 800, white: false });
  });

  it('has no answer for the dark, and refuses what is not a colour', () => {
    expect(colourTemperatureOf([0, 0, 0])).toBeNull();
    expect(() => colourTemperatureAt({ u: Number.NaN, v: 0.3 })).toThrow(RangeError);
  });
});

describe('chromaticity', () => {
  it('goes from X, Y, Z to 1960 u, v the same way directly and by x, y', () => {
    fc.assert(
      fc.property(
        fc.tuple(...Array.from({ length: 3 }, () => fc.double({ min: 0.01, max: 1000, noNaN: true }))),
        ([X, Y, Z]) => {
          const { x, y } = xyOf([X!, Y!, Z!]);
          const direct = uv1960Of([X!, Y!, Z!]);
          const byXy = uv1960FromXy(x, y);
          expect(byXy.u / direct.u).toBeCloseTo(1, 10);
          expect(byXy.v / direct.v).toBeCloseTo(1, 10);
        },
      ),
      { seed: 1931, numRuns: 100 },
    );
  });
});
