import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cosineRipple } from '../../../src/core/optics/ripple.ts';

describe('ripple left over', () => {
  it.each([
    // derived: |sin(πx)/(πx)| with x = pulses·t, and log₂((1+a)/(1−a))
    [1 / 48, 100, 0.0395, 0.114],
    [1 / 48, 120, 0.1273, 0.369],
    [1 / 60, 100, 0.1654, 0.482],
  ])('of fully modulated light, %d s at %d pulses a second', (shutter_s, pulses, amplitude, stops) => {
    const ripple = cosineRipple(1, pulses, shutter_s);
    expect(Math.abs(ripple.amplitude - amplitude)).toBeLessThan(1e-4);
    expect(Math.abs(ripple.peakToPeak_stops - stops)).toBeLessThan(1e-3);
  });

  it('is none for whole pulses, and all for an instant', () => {
    expect(cosineRipple(1, 100, 0.02).amplitude).toBeLessThan(1e-12);
    expect(cosineRipple(0.35, 100, 1e-6).amplitude).toBeCloseTo(0.35, 6);
  });

  it('equals a sum over many openings', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 5, noNaN: true }), (x) => {
        // derived: the same moving average by quadrature, 400 openings over a pulse, 500 points each
        const light: number[] = [];
        for (let k = 0; k < 400; k++) {
          let sum = 0;
          for (let i = 0; i < 500; i++)
            sum += 1 + 0.6 * Math.cos(2 * Math.PI * (k / 400 + ((i + 0.5) / 500) * x));
          light.push(sum / 500);
        }
        const wanted = Math.log2(Math.max(...light) / Math.min(...light));
        expect(Math.abs(cosineRipple(0.6, 100, x / 100).peakToPeak_stops - wanted)).toBeLessThan(1e-3);
      }),
      { seed: 9, numRuns: 20 },
    );
  });

  it('refuses nonsense', () => {
    expect(() => cosineRipple(-1, 100, 0.02)).toThrow('modulation is -1');
    expect(() => cosineRipple(1, 0, 0.02)).toThrow('pulses of light a second is 0');
  });
});
