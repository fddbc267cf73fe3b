import { describe, expect, it } from 'vitest';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import { normalize, type Vec3 } from '../../src/core/math/vec3.ts';
import { BATCHES, indirectError_lx, newIndirect, refineIndirect } from '../../src/core/transport/indirect.ts';
import type { MeterPoint } from '../../src/core/transport/source-sample.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../support/light-models.ts';
import { WET_YARD } from '../support/wet-yard.ts';

const FIRST_SEED = 1000;
const RUNS = 200;
const PATHS = 32;

interface Case {
  readonly model: LightModel;
  readonly meter: MeterPoint;
  /** Null where a long run has to tell. */
  readonly truth_lx: number | null;
}

const sphere = (radius_m: number) => opaque({ kind: 'sphere', centre_m: [0, 0, 0] as Vec3, radius_m });
const meterAt = (position_m: Vec3, facing: Vec3): MeterPoint => ({ position_m, facing: normalize(facing) });

const CASES: Readonly<Record<string, Case>> = {
  'bounce in a grey sphere': {
    model: modelOf({
      lamps: [lampAt([0.3, 0, 0], [1, 0, 0], isotropic(100))],
      parts: [sphere(2)],
      surfaces: [{ reflectance: [0.5, 0.5, 0.5] }],
    }),
    meter: meterAt([0, 1.99999, 0], [0, -1, 0]),
    // derived: integrating sphere, Φρ/(4πR²(1 − ρ))
    truth_lx: 25,
  },
  'haze in a black sphere': {
    model: modelOf({
      lamps: [lampAt([0, 0, 0], [1, 0, 0], isotropic(1600))],
      parts: [sphere(4)],
      extinction_per_m: 0.05,
      albedo: 1,
      anisotropy: 0.7,
    }),
    meter: meterAt([0, 3.9999, 0], [0, -1, 0]),
    // derived: all light arrives, I/R² less the straight part I/R²·e^(−σR)
    truth_lx: 100 * (1 - Math.exp(-0.05 * 3.9999)),
  },
  'a dirty pane lit from behind': {
    model: modelOf({
      lamps: [lampAt([0, 0, -2000], [0, 0, 0], isotropic(4e8))],
      parts: [pane(sheetAt(0, 0, 0, 60, 60))],
      panes: [{ direct: 0.2, scattered: 0.6, spread_deg: 60 }],
    }),
    meter: meterAt([0, 0, 0.5], [0, 0, -1]),
    truth_lx: null,
  },
  'a wet floor, a glossy side and haze': {
    model: WET_YARD,
    meter: meterAt([-1, 1.5, 1], [1, 0, 0]),
    truth_lx: null,
  },
};

function run({ model, meter }: Case, seed: number, paths: number) {
  const indirect = newIndirect(newTracer(model), meter, seed);
  refineIndirect(indirect, paths);
  const E_lx = indirect.domeByBatch.reduce((sum, batch) => sum + batch, 0) / (BATCHES * paths);
  const flat_lx = indirect.flatByBatch.reduce((sum, batch) => sum + batch, 0) / (BATCHES * paths);
  return {
    E_lx,
    flat_lx,
    error_lx: indirectError_lx(indirect, 'dome'),
    flatError_lx: indirectError_lx(indirect, 'flat'),
  };
}

describe(`the stated error of indirect light (seeds ${FIRST_SEED} to ${FIRST_SEED + RUNS - 1})`, () => {
  it.each(Object.entries(CASES))(
    'covers the truth at least 92 times in a hundred: %s',
    (name, example) => {
      const { truth_lx } = example;
      const truth = truth_lx ?? run(example, 1, 20_000).E_lx;
      let covered = 0;
      for (let i = 0; i < RUNS; i++) {
        const { E_lx, flat_lx, error_lx, flatError_lx } = run(example, FIRST_SEED + i, PATHS);
        const [got, error] = truth_lx === null ? [E_lx, error_lx] : [flat_lx, flatError_lx];
        if (Math.abs(got - truth) <= error) covered++;
      }
      console.info(`${name}: ${((100 * covered) / RUNS).toFixed(1)} % of ${RUNS} runs`);
      expect(covered / RUNS).toBeGreaterThanOrEqual(0.92);
    },
    60_000,
  );
});
