import { describe, expect, it } from 'vitest';
import { readSpot } from '../../src/core/frame/spot-reading.ts';
import { normalize, subtract, type Vec3 } from '../../src/core/math/vec3.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque } from '../support/light-models.ts';
import { WET_YARD } from '../support/wet-yard.ts';

const FIRST_SEED = 1000;
const RUNS = 200;
const ERROR_stops = 0.2;
const LONG_RUNS = 5;
const LONG_ERROR_stops = 0.03;

const ROOM = modelOf({
  lamps: [lampAt([0.3, 0, 0], [1, 0, 0], isotropic(100))],
  parts: [opaque({ kind: 'sphere', centre_m: [0, 0, 0] as Vec3, radius_m: 2 })],
  surfaces: [{ reflectance: [0.5, 0.5, 0.5] }],
});
const EYE_m: Vec3 = [-6, 1.5, 2];

/** And how often the interval must hold the truth. */
const CASES = [
  // Lower than elsewhere: light that goes round several times beside a lamp in haze comes by one path in many thousands.
  ['the glossy side in haze', WET_YARD, EYE_m, [-2, 1, -1], 0.9],
  ['air beside the lamp', WET_YARD, EYE_m, [8, 3.2, 1.5], 0.92],
  ['a wall of a grey sphere', ROOM, [0, -1, 0], [0.5, 1.5, 0], 0.92],
] as const;

describe(`the stated error of a spot reading (seeds ${FIRST_SEED} to ${FIRST_SEED + RUNS - 1})`, () => {
  it.each(CASES)(
    'covers the truth: %s',
    (name, model, from_m, to_m, least) => {
      const tracer = newTracer(model);
      const direction = normalize(subtract(to_m, from_m));
      const read = (error_stops: number, seed: number) =>
        readSpot(tracer, from_m, direction, { zero_cd_m2: 12.5, error_stops, seed });
      // The median, because one path in a million may bring as much as thousands of others.
      const longRuns = Array.from(
        { length: LONG_RUNS },
        (_, i) => read(LONG_ERROR_stops, i + 1).luminance_cd_m2,
      );
      const truth = longRuns.sort((a, b) => a - b)[LONG_RUNS >> 1]!;
      let covered = 0;
      for (let i = 0; i < RUNS; i++) {
        const { luminance_cd_m2, uncertainty } = read(ERROR_stops, FIRST_SEED + i);
        const off = Math.abs(luminance_cd_m2 - truth);
        if (off <= luminance_cd_m2 * (2 ** uncertainty.numerical_stops - 1)) covered++;
      }
      console.info(`${name}: ${((100 * covered) / RUNS).toFixed(1)} % of ${RUNS} runs`);
      expect(covered / RUNS).toBeGreaterThanOrEqual(least);
    },
    300_000,
  );
});
