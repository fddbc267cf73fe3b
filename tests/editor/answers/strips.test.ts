import { describe, expect, it } from 'vitest';
import { focusStrip } from '../../../src/editor/answers/focus-strip.ts';
import { nightStrip } from '../../../src/editor/answers/night-strip.ts';
import { walkStrip } from '../../../src/editor/answers/walk-strip.ts';
import { skyCurve } from '../../../src/editor/worker/answer-sky-curve.ts';
import type { LensReport } from '../../../src/scene/framing/lens-report.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import type { WalkReport } from '../../../src/scene/walk/walk-report.ts';
import { smallScene } from '../../support/scenes.ts';

describe('the strip of a night', () => {
  const document: SceneDocument = {
    ...smallScene(),
    site: { place: { latitude_deg: 53.4, longitude_deg: -2.1, start: '2027-03-04T20:00:00+01:00' } },
  };
  const sky = skyCurve(document, {});
  const strip = nightStrip(sky);

  it('runs from noon to noon, with its start and its dark hours in it', () => {
    // derived: noons by the sun are a day apart to half a minute
    expect(strip.hours).toBeCloseTo(24, 1);
    expect(strip.start_h).toBeGreaterThan(strip.dark[0]!.from_h);
    expect(strip.start_h).toBeLessThan(strip.dark[0]!.to_h);
  });

  it('has its full hours where the clock on set has them', () => {
    const { at_h, time } = strip.ticks.find((tick) => tick.time === '21:00')!;
    expect(time).toBe('21:00');
    // derived: an hour after the start
    expect(at_h - strip.start_h).toBeCloseTo(1, 6);
    expect(strip.ticks.every((tick) => tick.at_h >= 0 && tick.at_h <= strip.hours)).toBe(true);
  });

  it('has the sun high at both ends and low between', () => {
    const { curve } = sky;
    expect(curve[0]!.sun_deg).toBeGreaterThan(25);
    expect(curve.at(-1)!.sun_deg).toBeGreaterThan(25);
    expect(Math.min(...curve.map(({ sun_deg }) => sun_deg))).toBeCloseTo(sky.report.lowestSun_deg, 0);
  });
});

describe('the strip of a walk', () => {
  const step = (t_s: number, stops: number, key: number) => ({
    t_s,
    position_m: [0, 0, 0],
    speed_m_per_s: 1,
    dome_lx: 1,
    stops,
    input_stops: 0.5,
    lamps: [
      { id: 'key', dome_lx: 2 ** key, stops: key, distance_m: 3 },
      { id: 'off', dome_lx: 0, stops: Number.NEGATIVE_INFINITY, distance_m: 3 },
    ],
    shadows: [],
    framing: 'whole',
    blur_px: 1,
  });
  const shade = (mark: string, from_s: number, to_s: number) => ({ mark, name: mark, from_s, to_s });
  const report = {
    steps: [step(0, -2, -3), step(1, 0.2, -20), step(2, Number.NEGATIVE_INFINITY, -1), step(3, -1, -1.5)],
    shadows: [shade('face', 0, 1), shade('hand', 1, 2), shade('face', 2, 3)],
    inFrame: [{ from_s: 1, to_s: 3 }],
  } as unknown as WalkReport;
  const strip = walkStrip(report);

  it('reaches to whole stops round all light and its ±, and no deeper than a camera sees', () => {
    // derived: 0.2 + 0.5 under 1; no light is drawn at −8, where the chart ends
    expect([strip.low, strip.high]).toEqual([-8, 1]);
    expect(strip.all[2]).toEqual([2, -8]);
    expect(strip.input[2]).toBe(0);
  });

  it('draws a lamp where the chart reaches it, and leaves out one that gives nothing', () => {
    expect(strip.lamps.map(({ id }) => id)).toEqual(['key']);
    const [key] = strip.lamps;
    expect(key!.stretches).toEqual([
      [[0, -3]],
      [
        [2, -1],
        [3, -1.5],
      ],
    ]);
    expect(key!.peak).toEqual([2, -1]);
  });

  it('has a lane for the frame and one for each shaded mark', () => {
    expect(strip.lanes.map(({ word, spans }) => [word, spans])).toEqual([
      ['in frame', [[1, 3]]],
      [
        'shades face',
        [
          [0, 1],
          [2, 3],
        ],
      ],
      ['shades hand', [[1, 2]]],
    ]);
  });

  it('copes with a walk of one moment', () => {
    const moment = { ...report, steps: [step(0, -1, -2)], shadows: [] } as unknown as WalkReport;
    const { from_s, to_s, seconds } = walkStrip(moment);
    expect([from_s, to_s]).toEqual([0, 0]);
    expect(seconds).toEqual([0]);
  });
});

describe('the strip of focus', () => {
  const mark = (distance_m: number) => ({ id: `${distance_m}`, name: '', distance_m, sharp: true });
  const lens = { focal_mm: 35, near_m: 4, far_m: 16, focus_m: 8 };
  const report = (far_m: number | null, distances: readonly number[]) =>
    ({ lens: { ...lens, far_m }, marks: distances.map(mark) }) as unknown as LensReport;

  it('is even by ratio, from half the nearest to twice the farthest', () => {
    const { near, focus, far, marks } = focusStrip(report(16, [4]), 0.09);
    // derived: 2, 4, 8, 16, 32 are four equal steps
    expect([near, focus, far].map((at) => Number(at.toFixed(9)))).toEqual([0.25, 0.5, 0.75]);
    expect(marks[0]!.at).toBeCloseTo(0.25, 9);
  });

  it('is sharp to its end where the range has none, and leaves out what is behind the lens', () => {
    const { far, marks } = focusStrip(report(null, [-3, 6]), 0.09);
    expect(far).toBe(1);
    expect(marks.map(({ id }) => id)).toEqual(['6']);
  });
});
