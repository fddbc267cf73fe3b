import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FitQuestion, fitReadings, type ReadingModel } from '../../../src/core/readings/fit-readings.ts';
import { toldApart, WEAKER } from '../../../src/core/readings/told-apart.ts';

const SIGMA = Math.log(50) / 200;

/** Independent priors of ±⅔ for lamps and ±1 for haze, times `wider`. */
function prior(lamps: number, wider = 1): Float64Array {
  const n = lamps + 1;
  const P = new Float64Array(n * n);
  for (let i = 0; i < n; i++) P[i * n + i] = (wider * (i < lamps ? 2 / 3 : 1)) ** 2;
  return P;
}

function question(
  readings: readonly ReadingModel[],
  lamps: number,
  more: Partial<FitQuestion> = {},
): FitQuestion {
  return {
    readings,
    lamps,
    extinction_per_m: SIGMA,
    at_stops: 0,
    prior: prior(lamps),
    reading_stops: 0.1,
    ...more,
  };
}

/** One lamp of I cd by inverse square and the haze law, on its axis. */
function alone(
  lamp: number,
  I: number,
  distance_m: number,
  measured_lx: number,
  sigma = SIGMA,
): ReadingModel {
  const attenuated_lx = (I / distance_m ** 2) * Math.exp(-sigma * distance_m);
  return { measured_lx, sky_lx: 0, lamps: [{ lamp, attenuated_lx, glow_lx: 0, hazed_m: distance_m }] };
}

describe('fitting lamps and haze to readings', () => {
  it('leaves everything as planned where the readings are as planned', () => {
    const reading = alone(0, 1000, 5, (1000 / 25) * Math.exp(-5 * SIGMA));
    const { x_stops, residual_stops } = fitReadings(question([reading], 1));
    for (const x of x_stops) expect(Math.abs(x)).toBeLessThan(1e-9);
    expect(Math.abs(residual_stops[0]!)).toBeLessThan(1e-9);
  });

  it('in clear air moves a lamp by the reading, as far as the plan lets it', () => {
    // derived: a stop over; between plan ±⅔ and reading ±0.1 the weights are 2.25 and 100: 1·100/102.25.
    const { x_stops, covariance } = fitReadings(
      question([alone(0, 1000, 5, 80, 0)], 1, { extinction_per_m: 0 }),
    );
    expect(x_stops[0]).toBeCloseTo(100 / 102.25, 6);
    expect(Math.sqrt(covariance[0]!)).toBeCloseTo(1 / Math.sqrt(102.25), 6);
    // Nothing is said of a haze that is not there.
    expect(x_stops[1]).toBe(0);
  });

  it('tells lamp and haze apart with two distances, exactly in the limit of wide priors', () => {
    // derived: E·d²: 122 000, 93 750 → σ = ln(122 000/93 750)/15, I = 122 000·e^(10σ).
    const readings = [alone(0, 140_000, 10, 1220), alone(0, 140_000, 25, 150)];
    const { x_stops } = fitReadings(question(readings, 1, { prior: prior(1, WEAKER) }));
    const sigma = Math.log(122_000 / 93_750) / 15;
    expect(Math.abs((SIGMA * 2 ** x_stops[1]!) / sigma - 1)).toBeLessThan(1e-5);
    expect(Math.abs((140_000 * 2 ** x_stops[0]!) / (122_000 * Math.exp(10 * sigma)) - 1)).toBeLessThan(1e-5);
  });

  it('parts the light of several lamps metered together, given enough combinations', () => {
    const parts = (share: readonly [number, number]) => [
      { lamp: 0, attenuated_lx: share[0], glow_lx: 0, hazed_m: 4 },
      { lamp: 1, attenuated_lx: share[1], glow_lx: 0, hazed_m: 6 },
    ];
    // derived: lamp 0 a stop under, lamp 1 half a stop over: 50 + 28.28, 25 + 113.1.
    const readings = [
      { measured_lx: 50 + 20 * Math.SQRT2, sky_lx: 0, lamps: parts([100, 20]) },
      { measured_lx: 25 + 80 * Math.SQRT2, sky_lx: 0, lamps: parts([50, 80]) },
    ];
    const { x_stops } = fitReadings(question(readings, 2, { extinction_per_m: 0, prior: prior(2, WEAKER) }));
    expect(x_stops[0]).toBeCloseTo(-1, 4);
    expect(x_stops[1]).toBeCloseTo(0.5, 4);
  });

  it('finds the least of its own sum, against brute force over lamp and haze (20 seeded pairs of readings)', () => {
    const lx = fc.double({ min: 0.5, max: 2, noNaN: true });
    let worst = 0;
    fc.assert(
      fc.property(lx, lx, fc.double({ min: 0, max: 0.5, noNaN: true }), (near, far, glow) => {
        const reading = (d: number, off: number): ReadingModel => {
          const attenuated_lx = (1000 / d ** 2) * Math.exp(-SIGMA * d);
          const glow_lx = glow * attenuated_lx;
          return {
            measured_lx: off * (attenuated_lx + glow_lx + 0.1),
            sky_lx: 0.1,
            lamps: [{ lamp: 0, attenuated_lx, glow_lx, hazed_m: d }],
          };
        };
        const readings = [reading(10, near), reading(25, far)];
        const cost = (x: number, h: number) => {
          const sigma = SIGMA * 2 ** h;
          const off = readings.map(({ measured_lx, sky_lx, lamps: [lamp] }) => {
            const { attenuated_lx, glow_lx, hazed_m: d } = lamp!;
            const E = sky_lx + 2 ** x * (attenuated_lx + glow_lx * 2 ** h) * Math.exp((SIGMA - sigma) * d);
            return Math.log2(measured_lx / E);
          });
          return off.reduce((sum, o) => sum + (o / 0.1) ** 2, 0) + (x / (2 / 3)) ** 2 + h ** 2;
        };
        const [x, h] = fitReadings(question(readings, 1)).x_stops as unknown as [number, number];
        let least = Number.POSITIVE_INFINITY;
        for (let i = -80; i <= 80; i++)
          for (let k = -80; k <= 80; k++) least = Math.min(least, cost(i / 40, k / 40));
        worst = Math.max(worst, cost(x, h) - least);
      }),
      { seed: 151, numRuns: 20 },
    );
    expect(worst).toBeLessThan(1e-6);
  });

  it('states a ± that holds: truths drawn from the priors lie within 1.96 of it in 95 % (400 seeded nights)', () => {
    let random = 12_345;
    const uniform = () => {
      random = (Math.imul(random, 1_664_525) + 1_013_904_223) >>> 0;
      return (random + 0.5) / 2 ** 32;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    let [lampIn, hazeIn] = [0, 0];
    const nights = 400;
    for (let night = 0; night < nights; night++) {
      const [lamp, haze] = [(2 / 3) * normal(), normal()];
      const readings = [6, 12, 25].map((d) => {
        const E = (140_000 * 2 ** lamp * Math.exp(-SIGMA * 2 ** haze * d)) / d ** 2;
        return alone(0, 140_000, d, E * 2 ** (0.1 * normal()));
      });
      const { x_stops, covariance } = fitReadings(question(readings, 1));
      if (Math.abs(x_stops[0]! - lamp) < 1.96 * Math.sqrt(covariance[0]!)) lampIn++;
      if (Math.abs(x_stops[1]! - haze) < 1.96 * Math.sqrt(covariance[3]!)) hazeIn++;
    }
    // 95 % of 400 is 380 ± 4.4; at least 92 % asked, as of every stated interval.
    expect(lampIn / nights).toBeGreaterThan(0.92);
    expect(hazeIn / nights).toBeGreaterThan(0.92);
  });

  it('refuses darkness, which has no logarithm', () => {
    expect(() => fitReadings(question([alone(0, 1000, 5, 0)], 1))).toThrow('above zero');
    expect(() => fitReadings(question([{ measured_lx: 5, sky_lx: 0, lamps: [] }], 1))).toThrow('above zero');
  });
});

describe('what readings tell by themselves', () => {
  const told = (readings: readonly ReadingModel[], lamps: number) => {
    const { covariance } = fitReadings(question(readings, lamps, { prior: prior(lamps, WEAKER) }));
    const seen = new Set(readings.flatMap((reading) => reading.lamps.map(({ lamp }) => lamp)));
    const plan = [...new Array<number>(lamps).fill(2 / 3), 1];
    return toldApart(covariance, plan, [...seen, lamps]);
  };

  it('one lamp at one distance: neither lamp nor haze', () => {
    expect(told([alone(0, 1000, 10, 9), alone(0, 1000, 10, 9.2)], 1)).toEqual({
      told: [false, false],
      together: [[0, 1]],
    });
  });

  it('at two distances: both', () => {
    expect(told([alone(0, 1000, 10, 9), alone(0, 1000, 40, 0.3)], 1)).toEqual({
      told: [true, true],
      together: [],
    });
  });

  it('at two distances too near to each other for a meter of ±0.1: still neither', () => {
    expect(told([alone(0, 1000, 10, 9), alone(0, 1000, 10.5, 8)], 1).told[1]).toBe(false);
  });

  it('haze told by one lamp serves another', () => {
    const readings = [alone(0, 1000, 10, 9), alone(0, 1000, 40, 0.3), alone(1, 500, 20, 1)];
    expect(told(readings, 2)).toEqual({ told: [true, true, true], together: [] });
  });

  it('two lamps always metered together: not one from the other', () => {
    const [one, other] = [alone(0, 1000, 10, 18), alone(1, 1000, 10, 18)];
    const both = { ...one, lamps: [...one.lamps, ...other.lamps] };
    const far = {
      ...alone(0, 1000, 40, 0.6),
      lamps: [...alone(0, 1000, 40, 1).lamps, ...alone(1, 1000, 40, 1).lamps],
    };
    const { told: which, together } = told([both, far], 2);
    expect(which).toEqual([false, false, true]);
    expect(together).toEqual([[0, 1]]);
  });
});
