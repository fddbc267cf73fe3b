import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { type LensRequest, lensReport } from '../../../src/scene/framing/lens-report.ts';
import type { Sighting } from '../../../src/scene/framing/sighting.ts';
import { ABSENT, edited, opened, smallScene } from '../../support/scenes.ts';

function report(changes: Record<string, unknown> = {}, request: LensRequest = {}) {
  // Copies, because an edit may go into what another edit put there.
  const own = Object.entries(changes).map(([at, value]) => [
    at,
    value === ABSENT ? value : structuredClone(value),
  ]);
  const scene = opened(edited(smallScene(), Object.fromEntries(own)));
  return lensReport(scene, compileScene(scene, { photometry: new Map(), meshes: new Map() }), request);
}

/** A camera at the origin, 1.5 m up, level, looking along −z: 36 mm wide behind 36 mm, so that half the frame is d/2. */
const LEVEL = {
  cameras: [
    {
      id: 'a',
      position_m: [0, 1.5, 0],
      look_m: [0, 1.5, -10],
      sensor_mm: [36, 24],
      focal_mm: 36,
      fNumber: 4,
      shutter_s: 0.02,
      iso: 800,
      focus_m: 5,
    },
  ],
  solids: [],
};
const STAND = { maxHeight_m: 4, footRadius_m: 0.5 };
const lampAt = (position_m: readonly number[], more = {}) => ({
  id: 'key',
  head: 'plain',
  position_m,
  aim_m: [0, 1.5, 0],
  ...more,
});

describe('the lens', () => {
  it('takes in what its sensor and focal length say', () => {
    const { lens } = report(LEVEL);
    // derived: 2·atan(18/36) = 53.13°, 2·atan(12/36) = 36.87°, 2·atan(√(18²+12²)/36) = 62.0°; 5 m wide at 5 m
    expect(lens.horizontal_deg).toBeCloseTo(53.13, 2);
    expect(lens.vertical_deg).toBeCloseTo(36.87, 2);
    expect(lens.diagonal_deg).toBeCloseTo(62.0, 1);
    expect(lens.frameAtFocus_m[0]).toBeCloseTo(5, 9);
    expect(lens.pupil_mm).toBe(9);
    // derived: c = √(36²+24²)/1500 = 0.028844 mm; H = 36²/(4·c) + 36 = 11 269 mm; near 5(H−f)/(H+5−2f), far 5(H−f)/(H−5)
    expect(lens.hyperfocal_m).toBeCloseTo(11.269, 3);
    expect(lens.near_m).toBeCloseTo((5 * 11.233) / (16.269 - 0.072), 3);
    expect(lens.far_m!).toBeCloseTo((5 * 11.233) / 6.269, 2);
  });

  it('reaches to infinity from the hyperfocal distance on', () => {
    expect(report({ ...LEVEL, 'cameras.0.focus_m': 12 }).lens.far_m).toBeNull();
  });

  it('refuses a focus within the focal length', () => {
    expect(() => report({ ...LEVEL, 'cameras.0.focus_m': 0.03 })).toThrow(
      'cameras[0].focus_m (a): found focus at 0.03 m, within the focal length of 36 mm; expected a focus farther than that',
    );
  });

  it('needs a camera', () => {
    expect(() => report({ cameras: [] })).toThrow('found no camera');
    expect(() => report({}, { camera: 'b' })).toThrow('found no camera "b"; expected one of a');
  });
});

describe('what is in shot', () => {
  const seen = (changes: Record<string, unknown>) => {
    const { lamps, clean } = report({ ...LEVEL, ...changes });
    return { head: lamps[0]!.head, stand: lamps[0]!.stand as Sighting, clean };
  };

  it('finds a lamp in frame and says where', () => {
    // derived: 2.5 m to the left at 10 m: half the frame is 5 m, so a quarter of the way across; the face is level with the lens
    const { head, stand, clean } = seen({ 'lamps.0': lampAt([-2.5, 1.5, -10], { stand: STAND }) });
    expect(head).toMatchObject({ seen: 'in shot', share: 1 });
    if (head.seen === 'in shot') {
      expect(head.at.u).toBeCloseTo(0.25, 3);
      expect(head.at.v).toBeCloseTo(0.5, 2);
    }
    expect(stand.seen).toBe('in shot');
    expect(clean).toBe(false);
  });

  it('tells by how much a lamp is clear', () => {
    // derived: half the frame is 5 m at 10 m; the head's centre is 6 m aside, its rim (Ø 0.05 m, turned to the camera) 2 cm nearer
    const { head, stand, clean } = seen({ 'lamps.0': lampAt([6, 1.5, -10], { stand: STAND }) });
    expect(head).toMatchObject({ seen: 'out of frame', side: 'right' });
    if (head.seen === 'out of frame') expect(Math.abs(head.by_m - 0.98)).toBeLessThan(0.01);
    // derived: x − depth/2 on a circle of 0.5 m about (6, 10): 1 − √(0.5² + 0.25²) = 0.441
    expect(stand).toMatchObject({ seen: 'out of frame', side: 'right' });
    if (stand.seen === 'out of frame') expect(Math.abs(stand.by_m - 0.441)).toBeLessThan(0.01);
    expect(clean).toBe(true);
  });

  it('sees a stand whose head is over the frame', () => {
    // derived: the frame's top is 1.5 + 10/3 = 4.83 m up at 10 m
    const { head, stand, clean } = seen({
      'lamps.0': lampAt([0, 5.2, -10], { stand: { maxHeight_m: 6, footRadius_m: 0.5 } }),
    });
    expect(head).toMatchObject({ seen: 'out of frame', side: 'top' });
    if (head.seen === 'out of frame') expect(Math.abs(head.by_m - (5.2 - 4.833))).toBeLessThan(0.03);
    expect(stand.seen).toBe('in shot');
    expect(clean).toBe(false);
  });

  it('looks past nothing solid, and through glass', () => {
    const wall = {
      id: 'wall',
      name: 'Wall',
      shape: 'panel',
      position_m: [0, 2, -5],
      size_m: [8, 6],
      material: 'grey-card',
    };
    const lamp = { 'lamps.0': lampAt([0, 1.5, -10], { stand: STAND }) };
    expect(seen({ ...lamp, solids: [wall] })).toEqual({
      head: { seen: 'hidden', behind: 'Wall' },
      stand: { seen: 'hidden', behind: 'Wall' },
      clean: true,
    });
    const { material: _, ...glass } = wall;
    expect(seen({ ...lamp, solids: [{ ...glass, shape: 'pane', pane: 'clear-glass' }] }).head.seen).toBe(
      'in shot',
    );
    // derived: a wall 1 m high at 5 m hides at 10 m what is lower than 1.5 − 2·0.5 = 0.5 m: a third of the column and the feet
    const low = { ...wall, position_m: [0, 0.5, -5], size_m: [8, 1] };
    const { head, stand } = seen({ ...lamp, solids: [low] });
    expect(head.seen).toBe('in shot');
    expect(stand).toMatchObject({ seen: 'in shot' });
    if (stand.seen === 'in shot') expect(Math.abs(stand.share - 20 / 54)).toBeLessThan(0.03);
  });

  it('knows what is behind the camera', () => {
    const { head, stand } = seen({ 'lamps.0': lampAt([0, 1.5, 5], { stand: STAND }) });
    expect(head.seen).toBe('behind the camera');
    expect(stand.seen).toBe('behind the camera');
  });

  it('takes a lamp without a stand for a practical that may be seen', () => {
    const { lamps, clean } = report({ ...LEVEL, 'lamps.0': lampAt([0, 1.5, -10]) });
    expect(lamps[0]).toMatchObject({ practical: true, head: { seen: 'in shot' }, stand: null });
    expect(clean).toBe(true);
  });

  it('stands a lamp on what is under it', () => {
    // derived: on a deck whose top is 1.4 m up the column is 0.1 m long; without it, 1.5 m
    const deck = {
      id: 'deck',
      shape: 'box',
      position_m: [0, 1.35, -10],
      size_m: [2, 0.1, 2],
      material: 'grey-card',
    };
    const low = { 'cameras.0.look_m': [0, 6.5, -10], 'lamps.0': lampAt([0, 1.5, -10], { stand: STAND }) };
    const without = seen(low);
    const raised = seen({ ...low, solids: [deck] });
    const by = (s: Sighting) => (s.seen === 'out of frame' ? s.by_m : Number.NaN);
    expect(by(raised.stand)).toBeLessThanOrEqual(by(without.stand) + 1e-9);
    expect(raised.stand.seen).toBe('out of frame');
  });
});

describe('figures and marks', () => {
  const figure = (position_m: readonly number[]) => ({
    ...LEVEL,
    figures: [{ id: 'ada', name: 'Ada', position_m, heading_deg: 0, pose: 'standing', height_m: 1.7 }],
  });

  it('measures headroom', () => {
    // derived: at 6 m the frame is 4 m high, its top 1.5 + 2 = 3.5 m up; 1.8 m over a crown at 1.7 m are 45 %; the sole is at
    // −1.5 m of 2 m, 12.5 % over the bottom; perspective of the near side of the body moves both by a percent
    const { figures } = report(figure([0, 0, -6]));
    expect(figures[0]!.framing).toBe('whole');
    expect(Math.abs(figures[0]!.headroom - 0.45)).toBeLessThan(0.01);
    expect(Math.abs(figures[0]!.footroom - 0.125)).toBeLessThan(0.015);
  });

  it('says what the frame cuts through', () => {
    // derived: at 2 m the frame reaches from 0.83 m to 2.17 m: it cuts the thighs (hips at 0.90 m) and the hands
    const { figures } = report(figure([0, 0, -2]));
    expect(figures[0]!.framing).toBe('cut');
    expect(figures[0]!.cuts.map(({ side }) => side)).toEqual(['bottom']);
    expect(figures[0]!.cuts[0]!.through).toContain('thigh');
    expect(figures[0]!.cuts[0]!.through).not.toContain('head');
    expect(report(figure([9, 0, -6])).figures[0]!.framing).toBe('out');
    expect(report(figure([0, 0, 6])).figures[0]!.framing).toBe('out');
  });

  it('tells whether a mark is sharp, and how soft it is', () => {
    const changes = (z: number) => ({
      ...LEVEL,
      'marks.0.position_m': [0, 1.5, z],
      'marks.0.facing': 'camera',
    });
    expect(report(changes(-5)).marks[0]).toMatchObject({ inFrame: true, sharp: true, distance_m: 5 });
    const [far] = report(changes(-20)).marks;
    expect(far!.sharp).toBe(false);
    // derived: 36²/4·(15/20)/(5000 − 36) = 0.04895 mm of 36 mm: 8.16 of 6000 px
    expect(Math.abs(far!.blur_px! - 8.16)).toBeLessThan(0.01);
  });
});

describe('moves', () => {
  const path = (points: unknown, of = 'walker') => ({ ...LEVEL, paths: [{ id: 'p', of, points }] });

  it('are blurred as the formula says where they come nearest in frame', () => {
    // derived: 1.4·0.02·36/5 = 0.2016 mm; ·6000/36 = 33.6 px
    const { moves } = report(
      path([
        { t_s: 0, position_m: [-1.4, 0, -5] },
        { t_s: 2, position_m: [1.4, 0, -5] },
      ]),
    );
    expect(Math.abs(moves[0]!.nearest!.blur_px - 33.6)).toBeLessThan(0.01);
    expect(moves[0]!.nearest!.sharp!.stops).toBeCloseTo(Math.log2(3 / 33.6), 4);
  });

  it('count only where they are seen', () => {
    const points = [
      { t_s: 0, position_m: [0, 0, -8] },
      { t_s: 8, position_m: [0, 0, 0.5] },
    ];
    const wall = { id: 'w', shape: 'panel', position_m: [0, 2, -5], size_m: [8, 6], material: 'grey-card' };
    // derived: from −8 m to −5 m it is hidden; after that nearest just before the lens
    expect(report(path(points)).moves[0]!.nearest!.distance_m).toBeLessThan(0.2);
    expect(
      report({
        ...path(points.map((p) => ({ ...p, position_m: [0, 0, p.position_m[2]! - 5] }))),
        solids: [wall],
      }).moves[0]!.nearest!.distance_m,
    ).toBeLessThan(5);
    expect(
      report(
        path([
          { t_s: 0, position_m: [50, 0, -8] },
          { t_s: 1, position_m: [51, 0, -8] },
        ]),
      ).moves[0]!.nearest,
    ).toBeNull();
    // derived: 8.5 m in 8 s, 36 mm, focus 5 m: 1.0625·0.02·36/5 = 0.153 mm = 25.5 of 6000 px
    const [own] = report(path(points, 'a')).moves;
    expect(own!.nearest).toBeNull();
    expect(own!.ofThisCamera).toMatchObject({ focus_m: 5, blur_px: expect.closeTo(25.5, 6) });
    const other = { ...path(points, 'b'), 'cameras.1': { ...LEVEL.cameras[0], id: 'b' } };
    expect(report(other).moves[0]).toMatchObject({ ofOtherCamera: true, ofThisCamera: null, nearest: null });
  });
});

describe('flicker', () => {
  const pulsing = (more: Record<string, unknown> = {}) => ({
    ...LEVEL,
    'heads.plain.electrical': { kind: 'fluorescent', input_W: 100, flicker: 'mains' },
    site: { mains: { volts: 230, hertz: 50 } },
    ...more,
  });

  it('judges the shutter by the mains and says what is safe', () => {
    expect(report(pulsing()).flicker).toMatchObject({
      safe: true,
      lamps: [{ id: 'key', kind: 'fluorescent' }],
    });
    const { flicker } = report(pulsing({ 'cameras.0.shutter_s': 1 / 60 }));
    expect(flicker.safe).toBe(false);
    expect(1 / flicker.nearest!.shorter!.shutter_s).toBeCloseTo(100, 6);
    expect(1 / flicker.nearest!.longer.shutter_s).toBeCloseTo(50, 6);
    // derived: 0.35·|sinc(100/60)| = 0.35·0.1654 = 0.0579; log₂(1.0579/0.9421) = 0.167
    expect(Math.abs(flicker.lamps[0]!.ripple_stops! - 0.167)).toBeLessThan(1e-3);
  });

  it('knows when film keeps step with the mains', () => {
    const on60 = pulsing({ site: { mains: { volts: 120, hertz: 60 } }, 'cameras.0.shutter_s': 1 / 48 });
    expect(report(on60, { rate_fps: 24 }).flicker).toMatchObject({ safe: false, inStep: true });
    expect(report(on60, { rate_fps: 25 }).flicker).toMatchObject({
      inStep: false,
      safeAngles_deg: [75, 150, 225, 300],
      safeRates_fps: [24, 30],
    });
    expect(report(on60, { rate_fps: 24 }).shutter.angle_deg).toBeCloseTo(180, 9);
  });

  it('does not guess', () => {
    expect(report(pulsing({ site: {} })).flicker).toMatchObject({ mains_Hz: null, safe: null });
    expect(report(LEVEL).flicker).toMatchObject({ safe: null, unstated: ['key'], lamps: [] });
    expect(report(pulsing({ 'lamps.0.on': false })).flicker).toMatchObject({ safe: null, lamps: [] });
  });

  it('leaves out lamps on batteries and names those on generators', () => {
    const supplied = (kind: string) =>
      pulsing({ supplies: [{ id: 's', kind, volts: 230 }], 'lamps.0.supply': 's' });
    expect(report(supplied('battery')).flicker).toMatchObject({ lamps: [], onBattery: ['key'], safe: null });
    expect(report(supplied('generator')).flicker).toMatchObject({ onGenerator: ['key'], safe: true });
  });

  it('is not asked of a scene without lamps', () => {
    expect(report({ ...LEVEL, lamps: ABSENT }).flicker).toMatchObject({ lamps: [], unstated: [] });
  });
});
