import { describe, expect, it } from 'vitest';
import { sweptShadow } from '../../../src/core/optics/swept-shadow.ts';

describe('a walker’s shadow', () => {
  it('from half way is twice as wide and twice as fast', () => {
    // derived: 0.5·3/1.5 = 1.0 m at 1.4·2 = 2.8 m/s; over a 0.2 m face (1.0 + 0.2)/2.8 = 0.429 s
    const shadow = sweptShadow({
      bodyWidth_m: 0.5,
      speed_m_per_s: 1.4,
      lampToBody_m: 1.5,
      lampToMark_m: 3,
      markWidth_m: 0.2,
    });
    expect(shadow.width_m).toBeCloseTo(1, 12);
    expect(shadow.speed_m_per_s).toBeCloseTo(2.8, 12);
    expect(shadow.duration_s).toBeCloseTo(0.4286, 4);
  });

  it('needs a walker who walks', () => {
    const pass = { bodyWidth_m: 0.5, speed_m_per_s: 0, lampToBody_m: 1, lampToMark_m: 3, markWidth_m: 0 };
    expect(() => sweptShadow(pass)).toThrow('speed in m/s is 0');
  });
});
