import { describe, expect, it } from 'vitest';
import {
  lobeDensity,
  lobeTransmission,
  paneLobe,
  sampleLobe,
  scatteredWeight,
} from '../../../src/core/surfaces/pane-lobe.ts';

const SPREADS_deg = [10, 30, 60, 90, 120, 170];

/** ∫ f·cos θ_o dω_o over the hemisphere behind the pane, in rings round the straight direction, finely where it is dense. */
function totalSent(spread_deg: number, cosIn: number): number {
  const lobe = paneLobe(spread_deg);
  const n = 400;
  const sinIn = Math.sqrt(1 - cosIn * cosIn);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const u = (i + 0.5) / n;
    const delta = (Math.PI / 2) * u * u;
    const dDelta = (Math.PI * u) / n;
    for (let j = 0; j < n; j++) {
      const cosOut = cosIn * Math.cos(delta) + sinIn * Math.sin(delta) * Math.cos((Math.PI * (j + 0.5)) / n);
      if (cosOut <= 0) continue;
      const solidAngle = Math.sin(delta) * dDelta * ((2 * Math.PI) / n);
      sum += lobeTransmission(lobe, cosIn, cosOut, Math.cos(delta)) * cosOut * solidAngle;
    }
  }
  return sum;
}

describe('what a pane scatters', () => {
  it('has fallen to half at half its spread', () => {
    for (const spread of SPREADS_deg) {
      const lobe = paneLobe(spread);
      const half = Math.cos((spread * Math.PI) / 360);
      expect(lobeDensity(lobe, half) / lobeDensity(lobe, 1)).toBeCloseTo(0.5, 9);
    }
  });

  it('is all of it square on, but for 3 % of the widest lobes, and never more than all of it', () => {
    for (const spread of SPREADS_deg) {
      const squareOn = totalSent(spread, 1);
      expect(squareOn, `${spread}° square on`).toBeGreaterThan(0.97);
      expect(squareOn, `${spread}° square on`).toBeLessThan(1.005);
      for (const cosIn of [0.02, 0.1, 0.3, 0.5, 0.8, 0.95]) {
        expect(totalSent(spread, cosIn), `${spread}°, cos ${cosIn}`).toBeLessThan(1.015);
      }
    }
  });

  it('is the same both ways', () => {
    for (const spread of SPREADS_deg) {
      const lobe = paneLobe(spread);
      expect(lobeTransmission(lobe, 0.3, 0.9, 0.7)).toBeCloseTo(lobeTransmission(lobe, 0.9, 0.3, 0.7), 12);
    }
  });

  it('is drawn as densely as it says', () => {
    // derived: for cos^m the mean of cos δ is (m + 1)/(m + 2)
    for (const spread of SPREADS_deg) {
      const lobe = paneLobe(spread);
      const n = 10_000;
      let mean = 0;
      for (let i = 0; i < n; i++) mean += sampleLobe(lobe, (i + 0.5) / n) / n;
      expect(mean).toBeCloseTo((lobe.exponent + 1) / (lobe.exponent + 2), 4);
      // f·cos θ_in over the density of drawing it is the weight of the path
      const [cosIn, cosOut, cosDelta] = [0.6, 0.8, 0.9];
      const weight = (lobeTransmission(lobe, cosIn, cosOut, cosDelta) * cosIn) / lobeDensity(lobe, cosDelta);
      expect(scatteredWeight(lobe, cosIn, cosOut)).toBeCloseTo(weight, 9);
    }
  });
});
