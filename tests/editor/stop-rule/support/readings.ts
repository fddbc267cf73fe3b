import type { MixedReading } from '../../../../src/editor/stop-rule/mixed-reading.ts';
import type { MarkReport, MeterReport } from '../../../../src/scene/meter/meter-scene.ts';

/** f/4, 1/50 s, ISO 800: zero 250 lx flat, 330 lx dome. */
export const EXPOSURE: MeterReport['exposure'] = {
  fNumber: 4,
  shutter_s: 0.02,
  iso: 800,
  nd_stops: 0,
  loss_stops: 0,
  calibration: { flat: 250, dome: 330, reflected: 12.5 },
  zero: { flat_lx: 250, dome_lx: 330, luminance_cd_m2: 12.5 },
};

/** A mark with so many lux of straight light from each lamp, held flat. */
export function markOf(
  id: string,
  lamps_lx: Readonly<Record<string, number>>,
  more: Partial<MarkReport> = {},
): MarkReport {
  const lamps = Object.entries(lamps_lx).map(([lamp, lx]) => ({
    id: lamp,
    illuminance_lx: lx,
    direct_lx: lx,
    bounce_lx: 0,
    haze_lx: 0,
    stops: Math.log2(lx / 250),
    distance_m: 5,
    hazed_m: 0,
    incidence_deg: 0,
    offAxis_deg: 0,
    visible: 1,
  }));
  const sky_lx = more.sky_lx ?? 0;
  const illuminance_lx = lamps.reduce((sum, lamp) => sum + lamp.illuminance_lx, sky_lx);
  return {
    id,
    name: id,
    facing: 'camera',
    receptor: 'flat',
    illuminance_lx,
    flat_lx: illuminance_lx,
    dome_lx: illuminance_lx,
    stops: Math.log2(illuminance_lx / 250),
    fNumber: 4 * Math.sqrt(illuminance_lx / 250),
    uncertainty: { numerical_stops: 0.03, input_stops: 0.4 },
    direct_lx: illuminance_lx - sky_lx,
    bounce_lx: 0,
    haze_lx: 0,
    sky_lx,
    cct_K: 4000,
    duv: 0,
    lamps,
    ...more,
  };
}

export function reportOf(marks: readonly MarkReport[]): MeterReport {
  return {
    keyfall: 1,
    title: 'Marks',
    setup: null,
    camera: 'a',
    exposure: EXPOSURE,
    covers: { direct: true, sky: true, bounce: false, haze: false },
    marks,
  };
}

/** A needle at so many stops, of one lamp. */
export function readingAt(id: string, stops: number, plusMinus_stops: number | null = 0.5): MixedReading {
  const illuminance_lx = 250 * 2 ** stops;
  return {
    mark: markOf(id, { key: illuminance_lx }),
    illuminance_lx,
    stops,
    fNumber: 4,
    plusMinus_stops,
    cct_K: null,
    bounce_lx: 0,
    haze_lx: 0,
    parts: [{ of: 'key', illuminance_lx, share: 1 }],
  };
}
