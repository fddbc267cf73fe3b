import { describe, expect, it } from 'vitest';
import { readSpot } from '../../src/core/frame/spot-reading.ts';
import { placementFrom } from '../../src/core/geometry/placement.ts';
import { extinction_per_m } from '../../src/core/haze/extinction.ts';
import type { LightModel } from '../../src/core/light-model/light-model.ts';
import type { Vec3 } from '../../src/core/math/vec3.ts';
import { readMeter } from '../../src/core/meter/meter.ts';
import { newTracer } from '../../src/core/transport/tracer.ts';
import {
  isotropic,
  lampAt,
  type ModelOptions,
  modelOf,
  opaque,
  pane,
  sheetAt,
} from '../support/light-models.ts';

const EXPOSURE = { fNumber: 4, shutter_s: 0.02, iso: 800, nd_stops: 0, loss_stops: 0 };
const CALIBRATION = { flat: 250, dome: 330, reflected: 12.5 };
const lamp = lampAt([1, 1, 0], [0, 0, 0], isotropic(500), { shape: 'disc', radius_m: 0.1 });
const room = opaque({ kind: 'box', placement: placementFrom([0, 0, 0]), halfSize_m: [2, 2, 2] });
const white = { reflectance: [1, 1, 1] as Vec3 };

const CASES: Readonly<Record<string, ModelOptions>> = {
  'a closed box of reflectance 1 in haze of albedo 1': {
    lamps: [lamp],
    parts: [room],
    surfaces: [white],
    extinction_per_m: 0.2,
    albedo: 1,
    anisotropy: 0.9,
  },
  'visibility of 0.1 m': {
    lamps: [lamp],
    parts: [room],
    extinction_per_m: extinction_per_m(0.1),
    anisotropy: 0.8,
  },
  'a closed box of perfect mirrors': {
    lamps: [lamp],
    parts: [room],
    surfaces: [{ metal: { n: [0.05, 0.05, 0.05], k: [5, 5, 5] }, roughness: 0 }],
  },
  'a lamp at level 0': {
    lamps: [{ ...lamp, gain: 0 }],
    parts: [room],
    surfaces: [white],
    extinction_per_m: 0.01,
  },
  'no lamps': { parts: [room], surfaces: [white], extinction_per_m: 0.01 },
  '64 lamps': {
    lamps: Array.from({ length: 64 }, (_, i) =>
      lampAt([1.5 * Math.cos(i), 1, 1.5 * Math.sin(i)], [0, 0, 0], isotropic(20)),
    ),
    parts: [room],
    surfaces: [{ reflectance: [0.5, 0.5, 0.5] }],
    extinction_per_m: 0.01,
  },
  'a meter inside something solid': {
    lamps: [lamp],
    parts: [opaque({ kind: 'sphere', centre_m: [0, 0, 0], radius_m: 0.4 })],
    surfaces: [white],
  },
  'a lamp that touches a pane that scatters everything': {
    lamps: [lamp],
    parts: [pane(sheetAt(1, 1, 0, 1, 1)), room],
    panes: [{ direct: 0, scattered: 1, spread_deg: 180 }],
    surfaces: [{ reflectance: [0.5, 0.5, 0.5] }],
  },
};

describe('light under hostile values', () => {
  it.each(Object.entries(CASES))(
    '%s ends, with a finite, labelled answer',
    (_, options) => {
      const model: LightModel = modelOf(options);
      const tracer = newTracer(model);
      const meter = { position_m: [0, 0.1, 0] as Vec3, facing: [0, 1, 0] as Vec3 };
      const options_ = { exposure: EXPOSURE, calibration: CALIBRATION, error_stops: 0.5 };
      const reading = readMeter(model, tracer, meter, 'dome', options_);
      for (const value of [reading.illuminance_lx, reading.bounce_lx, reading.haze_lx, reading.sky_lx]) {
        expect(Number.isFinite(value) && value >= 0).toBe(true);
      }
      expect(Number.isFinite(reading.uncertainty.numerical_stops)).toBe(true);
      const spot = readSpot(tracer, [0, 0.1, 0], [0, 1, 0], { zero_cd_m2: 12.5, error_stops: 0.5 });
      expect(Number.isFinite(spot.luminance_cd_m2)).toBe(true);
      expect(spot.rgb_linear.every(Number.isFinite)).toBe(true);
    },
    60_000,
  );
});
