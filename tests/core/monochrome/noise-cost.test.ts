import { describe, expect, it } from 'vitest';
import { channelMix } from '../../../src/core/monochrome/channel-mix.ts';
import { hueCurve } from '../../../src/core/monochrome/hue-curve.ts';
import { noiseCost_stops } from '../../../src/core/monochrome/noise-cost.ts';
import { LUMINANCE_WEIGHTS } from '../../../src/core/picture/linear-rgb.ts';

const WHITE = [1, 1, 1] as const;

describe('noise cost of a conversion', () => {
  it('is √Σ(w·n)² over that of luminance', () => {
    // derived: √(0.8² + 0.2²) = 0.8246; √(0.2126² + 0.7152² + 0.0722²) = 0.7496; log₂ of their ratio 0.138
    expect(noiseCost_stops(channelMix([0.8, 0.2, 0]), WHITE)).toBeCloseTo(0.138, 3);
    // derived: 1/0.7496, 0.416 stop
    expect(noiseCost_stops(channelMix([0, 0, 1]), WHITE)).toBeCloseTo(0.416, 3);
    // derived: √(1.6² + 0.5² + 0.1²)/0.7496 = 2.240, 1.164 stops: what negative weights cost
    expect(noiseCost_stops(channelMix([1.6, -0.5, -0.1]), WHITE)).toBeCloseTo(1.164, 2);
  });

  it('is nothing for luminance itself', () => {
    expect(noiseCost_stops(channelMix(LUMINANCE_WEIGHTS), WHITE)).toBeCloseTo(0, 9);
    expect(noiseCost_stops(channelMix(LUMINANCE_WEIGHTS), [0.2, 0.03, 0.03], [1, 2, 3])).toBeCloseTo(0, 9);
  });

  it('counts a noisy channel for what it is', () => {
    // derived: blue twice as noisy: √(0.5² + 1²) = 1.118 over √(0.2126² + 0.7152² + 0.1444²) = 0.7599; 0.557 stop
    expect(noiseCost_stops(channelMix([0, 0.5, 0.5]), WHITE, [1, 1, 2])).toBeCloseTo(0.557, 3);
  });

  it('is nothing at neutrals for a curve by hue, and much where two neighbouring hues are torn apart', () => {
    // derived: the slope of the curve at a neutral is that of luminance, because purity enters squared
    const curve = hueCurve({ red: 3, orange: -3 });
    expect(noiseCost_stops(curve, WHITE)).toBeCloseTo(0, 4);
    // derived: hue 10° of (1, 0.185, 0), half-way down: k falls by π/2·6/20 = 0.471 stop a degree, 0.327 of the light, times
    // 0.98 of purity; the hue turns by 58.4° per unit of green, −47.6° of blue, −10.8° of red. ∂lnY/∂G = −18.7 + 2.1 = −16.7,
    // ∂lnY/∂B = 15.3 + 0.2 = 15.5, ∂lnY/∂R = 3.5 + 0.6 = 4.1; together 23.1, and luminance has 2.17: log₂ 10.6 = 3.41 stops
    expect(Math.abs(noiseCost_stops(curve, [1, 0.185, 0]) - 3.41)).toBeLessThan(0.02);
  });

  it('is endless where no grey is left, and refuses a colour of no light', () => {
    expect(noiseCost_stops(channelMix([1.4, 0, -0.4]), [0, 0, 1])).toBe(Number.POSITIVE_INFINITY);
    expect(() => noiseCost_stops(channelMix([1, 0, 0]), [0, 0, 0])).toThrow(RangeError);
  });
});
