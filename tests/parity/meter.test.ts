import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { readMeter } from '../../src/core/meter/meter.ts';
import type { Receptor } from '../../src/core/transport/receptor.ts';
import type { MeterPoint } from '../../src/core/transport/source-sample.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import { previewScene } from '../../src/preview/renderer/preview-scene.ts';
import { lampAt, type ModelOptions, modelOf, opaque, pane, sheetAt } from '../support/light-models.ts';
import { type Frames, openFrames } from './support/frames.ts';
import { copiesOf, readingsOf } from './support/held-meters.ts';

const EXPOSURE = { fNumber: 4, shutter_s: 0.02, iso: 800, nd_stops: 0, loss_stops: 0 };
const CALIBRATION = { flat: 250, dome: 330, reflected: 12.5 };
/** As many pixels for each meter, so that few draws make many paths. */
const COPIES = 512;
const SAMPLES = 24;
/** A meter that is this far off is another meter; the larger of it and of three standard errors of both. */
const TOLERANCE_STOPS = 0.05;
const CORE_ERROR_STOPS = 0.03;

const WALL = opaque({ kind: 'box', placement: placementFrom([0, 1, -2]), halfSize_m: [2, 1, 0.1] }, 1);
const FLOOR = opaque({ kind: 'box', placement: placementFrom([0, -0.1, 0]), halfSize_m: [6, 0.1, 6] });
const SURFACES = [
  { reflectance: [0.5, 0.5, 0.5] as Vec3 },
  { reflectance: [0.03, 0.03, 0.03] as Vec3, coatIor: 1.5, roughness: 0.12 },
];
const LAMPS = [
  lampAt(
    [1.5, 2.4, 2],
    [0, 0.8, -2],
    { kind: 'beam', peak_cd: 3000, beam_deg: 30, field_deg: 50 },
    { shape: 'disc', radius_m: 0.15 },
  ),
  lampAt(
    [-3, 2, 0],
    [0, 0.5, 0],
    { kind: 'lambert', peak_cd: 200 },
    { shape: 'rectangle', halfSize_m: [0.4, 0.4] },
  ),
];

const SCENES: Readonly<Record<string, ModelOptions>> = {
  'lamps, sky, a floor and a glossy wall': {
    parts: [FLOOR, WALL],
    surfaces: SURFACES,
    lamps: LAMPS,
    skyIlluminance_lx: 3,
  },
  'a pane that scatters': {
    parts: [FLOOR, pane(sheetAt(0, 1.2, 1, 3, 2.4))],
    panes: [{ direct: 0.3, scattered: 0.4, spread_deg: 70 }],
    surfaces: SURFACES,
    lamps: [LAMPS[0]!],
  },
  haze: {
    parts: [FLOOR],
    surfaces: SURFACES,
    lamps: [LAMPS[0]!],
    extinction_per_m: 0.05,
    albedo: 0.9,
    anisotropy: 0.6,
  },
};

const UPRIGHT: Vec3 = [0, 1, 0];
const METERS: readonly { readonly point: MeterPoint; readonly receptor: Receptor }[] = [
  { point: { position_m: [0, 0.5, -0.5], facing: UPRIGHT }, receptor: 'flat' },
  { point: { position_m: [0, 0.5, -0.5], facing: [0, 0, -1] }, receptor: 'flat' },
  { point: { position_m: [1, 1.5, 0], facing: [0, 0, 1] }, receptor: 'dome' },
  { point: { position_m: [-1, 1, -1], facing: [0, 0, -1] }, receptor: 'dome' },
];

let frames: Frames;
beforeAll(async () => {
  frames = await openFrames();
});
afterAll(() => frames.close());

describe('meters on the graphics card', () => {
  for (const [name, options] of Object.entries(SCENES))
    it(`read what the core reads: ${name}`, async () => {
      const model = modelOf(options);
      const tracer = newTracer(model);
      const held = { meters: copiesOf(METERS, COPIES) };
      const { rgb } = await frames.render(previewScene(model), held, SAMPLES);
      const readings = readingsOf(rgb, COPIES);
      METERS.forEach(({ point, receptor }, i) => {
        const core = readMeter(model, tracer, point, receptor, {
          exposure: EXPOSURE,
          calibration: CALIBRATION,
          error_stops: CORE_ERROR_STOPS,
        });
        const { mean_lx: mean, error_lx } = readings[i]!;
        // derived: the same reading by the core; its stated error is a 95 % interval, two standard errors
        const noise_stops = Math.hypot((error_lx / mean) * Math.LOG2E, core.uncertainty.numerical_stops / 2);
        const stops = Math.log2(mean / core.illuminance_lx);
        expect(Math.abs(stops), `meter ${i}: ${mean} lx against ${core.illuminance_lx} lx`).toBeLessThan(
          Math.max(TOLERANCE_STOPS, 3 * noise_stops),
        );
      });
    });
});
