import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type EquiAngular, sampleEquiAngular } from '../../../src/core/haze/equi-angular.ts';
import { henyeyGreenstein, sampleHenyeyGreenstein } from '../../../src/core/haze/henyey-greenstein.ts';

/** ∫ f dμ over −1..1 by the midpoint rule in the variable that spreads the forward peak. */
function overCosine(g: number, value: (mu: number) => number): number {
  const n = 20_000;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += value(sampleHenyeyGreenstein(g, (i + 0.5) / n)) / n;
  return sum;
}

describe('the phase function', () => {
  it('has the published values for g = 0.7', () => {
    // published: Henyey & Greenstein 1941, formula; computed values of check value H6
    for (const [mu, p] of [
      [1, 1.50313],
      [Math.cos(Math.PI / 6), 0.277533],
      [0, 0.022314],
      [-1, 0.008261],
    ] as const) {
      expect(henyeyGreenstein(0.7, mu)).toBeCloseTo(p, 6);
    }
  });

  it('integrates to 1 and has the mean cosine g', () => {
    // published: g is the mean cosine, θ from the direction of travel (H5)
    for (const g of [-0.5, 0, 0.3, 0.8, 0.95]) {
      let whole = 0;
      const n = 200_000;
      for (let i = 0; i < n; i++) whole += 2 * Math.PI * henyeyGreenstein(g, -1 + (2 * i + 1) / n) * (2 / n);
      expect(whole).toBeCloseTo(1, 5);
      expect(overCosine(g, (mu) => mu)).toBeCloseTo(g, 5);
    }
  });

  it('sends the published share forward', () => {
    // derived: (1−g²)/(2g)·[1/(1−g) − 1/√(1+g²)] = 0.829180 for g 0.5 (H7)
    expect(overCosine(0.5, (mu) => (mu > 0 ? 1 : 0))).toBeCloseTo(0.82918, 4);
  });
});

describe('single scattering of a point source along a line of sight', () => {
  it('agrees with the airlight table', () => {
    // derived: 216 rows by quadrature to 1e-10 (file header; Sun et al. 2005, Pegoraro & Parker 2009 give the closed forms)
    let worst = 0;
    const rows = readFileSync(new URL('../../fixtures/airlight-point-source.csv', import.meta.url), 'utf8')
      .split('\n')
      .filter((line) => /^[\d.]/.test(line))
      .map((line) => line.split(',').map(Number));
    for (const [sigma, albedo, g, x0, h, D, wanted] of rows as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ][]) {
      const n = 4000;
      const sample: EquiAngular = { t: 0, pdf: 0 };
      let L = 0;
      for (let i = 0; i < n; i++) {
        sampleEquiAngular(x0, h, 0, D, (i + 0.5) / n, sample);
        const r = Math.hypot(sample.t - x0, h);
        const mu = -(sample.t - x0) / r;
        L +=
          (sigma * albedo * henyeyGreenstein(g, mu) * Math.exp(-sigma * (sample.t + r))) /
          (r * r) /
          sample.pdf /
          n;
      }
      worst = Math.max(worst, Math.abs(L / wanted - 1));
    }
    expect(rows.length).toBe(216);
    expect(worst).toBeLessThan(1e-5);
  });
});
