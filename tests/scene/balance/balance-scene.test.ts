import { describe, expect, it } from 'vitest';
import { type BalanceReport, balanceScene } from '../../../src/scene/balance/balance-scene.ts';
import type { Want } from '../../../src/scene/balance/wants.ts';
import { whiteBalanceReport } from '../../../src/scene/balance/white-balance.ts';
import { withLevels } from '../../../src/scene/balance/with-levels.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { sceneInSetup } from '../../../src/scene/setups/scene-in-setup.ts';
import { edited, frozen, opened } from '../../support/scenes.ts';

const NO_FILES = { photometry: new Map(), meshes: new Map() };
const compile = (document: SceneDocument) => compileScene(document, NO_FILES);

/** Three lamps on two marks, nothing else: all light is straight, so everything can be checked by hand. Zero: 250 lx flat. */
function stage(changes: Record<string, unknown> = {}): SceneDocument {
  const head = (peak_cd: number, kind: string) => ({
    photometry: { kind: 'beam', peak_cd, beam_deg: 60, field_deg: 90 },
    face: { shape: 'disc', diameter_m: 0.02 },
    spectrum: { kind: 'planck', cct_K: 3200 },
    electrical: { kind, input_W: 100 },
  });
  return opened(
    edited(
      {
        keyfall: 1,
        title: 'Two marks',
        heads: { led: head(4000, 'led'), arc: head(16_000, 'discharge') },
        lamps: [
          { id: 'key', head: 'led', position_m: [0, 1, 4], aim_m: [0, 1, 0] },
          { id: 'fill', head: 'led', position_m: [3, 1, 4], aim_m: [3, 1, 0], level: 0.8 },
          { id: 'arc', head: 'arc', position_m: [0, 1, 8], aim_m: [0, 1, 0] },
        ],
        marks: [
          { id: 'left', position_m: [0, 1, 0], facing: [0, 0, 1], receptor: 'flat' },
          { id: 'right', position_m: [3, 1, 0], facing: [0, 0, 1], receptor: 'flat' },
        ],
        cameras: [
          {
            id: 'a',
            position_m: [1, 1, 6],
            look_m: [0, 1, 0],
            sensor_mm: [36, 24],
            focal_mm: 35,
            fNumber: 4,
            shutter_s: 0.02,
            iso: 800,
          },
        ],
      },
      changes,
    ),
  );
}

function balanced(scene: SceneDocument, ...wants: Want[]): BalanceReport {
  return balanceScene(scene, { wants, compile });
}

const level = (report: BalanceReport, id: string) => report.lamps.find((lamp) => lamp.id === id)!.level;

describe('levels for wanted stops', () => {
  it('of one lamp: key at its mark, 250 lx full up, a stop down is half', () => {
    // derived: 4000/16 = 250 lx = 0 stops at level 1.
    const report = balanced(stage(), { mark: 'left', lamp: 'key', stops: -1 });
    expect(report.reached).toBe(true);
    expect(level(report, 'key')).toBeCloseTo(0.5, 3);
    expect(report.wants[0]!.now_stops).toBeCloseTo(0, 3);
    expect(report.wants[0]!.then_stops).toBeCloseTo(-1, 3);
    // Lamps that nothing is wanted of stay where they are.
    expect(level(report, 'fill')).toBe(0.8);
    expect(level(report, 'arc')).toBe(1);
  });

  it('of lamps and a total together, confirmed by metering the scene with the new levels', () => {
    const scene = frozen(stage());
    const wants = [
      { mark: 'left', lamp: 'arc', stops: -1 },
      { mark: 'left', lamp: null, stops: 0 },
      { mark: 'right', lamp: null, stops: -0.5 },
    ];
    const report = balanced(scene, ...wants);
    expect(report.reached).toBe(true);
    const after = withLevels(scene, undefined, report.lamps);
    const { marks } = meterScene(after, compile(after), { light: 'all' });
    expect(marks[0]!.stops).toBeCloseTo(0, 2);
    expect(marks[1]!.stops).toBeCloseTo(-0.5, 2);
    expect(marks[0]!.lamps[2]!.stops).toBeCloseTo(-1, 2);
    for (const [m, mark] of report.marks.entries()) expect(mark.then_stops).toBeCloseTo(marks[m]!.stops, 2);
  });

  it('of a lamp that is on at level 0 come up from there', () => {
    const report = balanced(stage({ 'lamps.0.level': 0 }), { mark: 'left', lamp: 'key', stops: -2 });
    expect(report.wants[0]!.now_stops).toBe(Number.NEGATIVE_INFINITY);
    expect(level(report, 'key')).toBeCloseTo(0.25, 3);
  });

  it('never switch a lamp on', () => {
    const report = balanced(stage({ 'lamps.2.on': false }), { mark: 'left', lamp: null, stops: 1 });
    expect(level(report, 'arc')).toBe(0);
    expect(report.reached).toBe(false);
  });

  it('leave small changes to the others', () => {
    const report = balanced(stage({ 'lamps.1.level': 0.02 }), { mark: 'left', lamp: null, stops: 0.8 });
    expect(level(report, 'fill')).toBe(0.02);
    expect(report.reached).toBe(true);
  });

  it('refuse a lamp that does not get there', () => {
    const wall = {
      id: 'wall',
      shape: 'box',
      size_m: [1, 4, 0.1],
      position_m: [0, 1, 2],
      material: 'matte-black',
    };
    const scene = stage({ solids: [wall], 'marks.0.position_m': [0, 1, 0] });
    // Bounce is none: the wall is black, but not quite; a lamp aimed away gives nothing at all.
    const away = stage({ 'lamps.0.aim_m': [0, 1, 9], 'lamps.0.position_m': [0, 1, 8] });
    expect(() => balanced(away, { mark: 'left', lamp: 'key', stops: 0 })).toThrow(
      '--want: found left:key, but no light of key reaches left; expected a mark that the lamp lights',
    );
    expect(scene.solids).toHaveLength(1);
  });
});

describe('where a level cannot do it', () => {
  const short = balanced(stage(), { mark: 'left', lamp: 'key', stops: 1 });
  const remedy = (change: string) => short.wants[0]!.remedies.find((r) => r.change === change)!;

  it('says so, with the lamp full up', () => {
    expect(short.reached).toBe(false);
    expect(short.wants[0]).toMatchObject({ why: 'full', reached: false });
    expect(short.wants[0]!.residual_stops).toBeCloseTo(-1, 2);
  });

  it('nearer does, by the true light', () => {
    const nearer = remedy('nearer');
    // derived: 4·√½ = 2.828 m for twice the light.
    expect('distance_m' in nearer && nearer.distance_m).toBeCloseTo(2.828, 2);
    expect(nearer.outcome_stops).toBeCloseTo(1, 2);
  });

  it('and so do two heads', () => {
    expect(remedy('more-heads')).toMatchObject({ count: 2, reached: true });
  });

  it('a soft source has to come nearer than the inverse square says', () => {
    const soft = stage({ 'heads.led.face.diameter_m': 3 });
    const full = balanced(soft, { mark: 'left', lamp: 'key', stops: 20 }).wants[0]!.now_stops;
    const report = balanced(soft, { mark: 'left', lamp: 'key', stops: full + 0.5 });
    const nearer = report.wants[0]!.remedies.find((r) => r.change === 'nearer')!;
    // derived: the inverse square would have it at 4·2^(−¼) = 3.364 m.
    expect('distance_m' in nearer && nearer.distance_m).toBeLessThan(3.3);
    expect(nearer.outcome_stops).toBeCloseTo(full + 0.5, 1);
  });

  it('a head that looks over the mark is better put lower or higher', () => {
    const scene = stage({
      'lamps.0.position_m': [0, 5, 1],
      'lamps.0.aim_m': [0, 1, 0],
      'lamps.0.stand': { maxHeight_m: 5 },
    });
    const now = balanced(scene, { mark: 'left', lamp: 'key', stops: 20 }).wants[0]!.now_stops;
    const report = balanced(scene, { mark: 'left', lamp: 'key', stops: now + 1 });
    const height = report.wants[0]!.remedies.find((r) => r.change === 'height')!;
    expect(height.reached).toBe(true);
    expect('position_m' in height && height.position_m[1]).toBeLessThan(5);
    expect(height.outcome_stops).toBeCloseTo(now + 1, 1);
  });

  it('a stand reaches as high on a platform at 2 m as on the ground, and its height is told from there', () => {
    const remedyAt = (ground_m: number) => {
      const up = ([x, y, z]: readonly [number, number, number]) => [x, y + ground_m, z];
      const floor = {
        id: 'floor',
        shape: 'box',
        size_m: [8, 1, 20],
        position_m: up([0, -0.5, 0]),
        material: 'concrete',
      };
      const plain = stage();
      const scene = stage({
        solids: [floor],
        lamps: plain.lamps!.map((l) => ({ ...l, position_m: up(l.position_m), aim_m: up(l.aim_m) })),
        marks: plain.marks!.map((m) => ({ ...m, position_m: up(m.position_m) })),
        'lamps.0.position_m': up([0, 1, 2]),
        'lamps.0.aim_m': up([0, 3, 0]),
        'lamps.0.stand': { maxHeight_m: 2.5 },
        'marks.0.position_m': up([0, 3, 0]),
      });
      const now = balanced(scene, { mark: 'left', lamp: 'key', stops: 20 }).wants[0]!.now_stops;
      const { remedies } = balanced(scene, { mark: 'left', lamp: 'key', stops: now + 4 }).wants[0]!;
      return remedies.find((r) => r.change === 'height') as Extract<
        (typeof remedies)[number],
        { change: 'nearer' | 'height' }
      >;
    };
    const [ground, platform] = [remedyAt(0), remedyAt(2)];
    expect(ground.height_m).toBeCloseTo(2.5, 9);
    expect(platform.height_m).toBeCloseTo(2.5, 9);
    expect(platform.position_m[1]).toBeCloseTo(4.5, 9);
    expect(platform.outcome_stops).toBeCloseTo(ground.outcome_stops, 1);
  });

  it('no stand is sent where nothing may stand: past it, with the lamp down, or not at all', () => {
    const area = (from: number, to: number) => ({
      site: {
        keepOut: [
          {
            id: 'edge',
            outline_m: [
              [-2, from],
              [2, from],
              [2, to],
              [-2, to],
            ],
          },
        ],
      },
      'lamps.0.stand': { maxHeight_m: 3, footRadius_m: 0.3 },
    });
    const nearer = (scene: SceneDocument) =>
      balanced(scene, { mark: 'left', lamp: 'key', stops: 1 }).wants[0]!.remedies.find(
        (remedy) => remedy.change === 'nearer',
      );
    // derived: 2.83 m would do; with the foot, 2.1 to 3.3 m are kept out.
    const past = nearer(stage(area(2.4, 3)))!;
    expect('distance_m' in past && past.distance_m).toBeLessThan(2.1);
    expect(past.level).toBeLessThan(0.6);
    expect(past.outcome_stops).toBeCloseTo(1, 2);
    expect(nearer(stage(area(-3, 3)))).toBeUndefined();
  });

  it('two wants of one lamp that cannot both be had end evenly off', () => {
    const scene = stage({ 'marks.1.position_m': [0.5, 1, 0] });
    const report = balanced(
      scene,
      { mark: 'left', lamp: 'arc', stops: -2 },
      { mark: 'right', lamp: 'arc', stops: -1 },
    );
    const [left, right] = report.wants;
    expect(left).toMatchObject({ why: 'other-wants', reached: false });
    expect(left!.residual_stops + right!.residual_stops).toBeCloseTo(0, 2);
  });

  it('light that no lamp gives cannot be dimmed away', () => {
    const scene = stage({ site: { sky: { illuminance_lx: 40 } } });
    const report = balanced(scene, { mark: 'left', lamp: null, stops: -6 });
    expect(report.wants[0]).toMatchObject({ why: 'other-light', reached: false });
    for (const lamp of ['key', 'arc']) expect(level(report, lamp)).toBe(0);
  });
});

describe('heads that dim no further', () => {
  it('get nets, half a stop at a time, and a level that they can do', () => {
    // derived: arc gives 16 000/64 = 250 lx; −2 stops is level 0.25: a stop of nets and half.
    const report = balanced(stage(), { mark: 'left', lamp: 'arc', stops: -2 });
    const arc = report.lamps.find((lamp) => lamp.id === 'arc')!;
    expect(arc.level).toBeCloseTo(0.25, 3);
    expect(arc.nets_stops * 1).toBeCloseTo(1, 9);
    expect(arc.dimmer).toBeCloseTo(0.5, 2);
    const after = withLevels(stage(), undefined, report.lamps);
    expect(after.lamps![2]).toMatchObject({ filters: ['scrim-double'] });
    const { marks } = meterScene(after, compile(after), { light: 'direct' });
    expect(marks[0]!.lamps[2]!.stops).toBeCloseTo(-2, 2);
  });

  it('others do not', () => {
    const report = balanced(stage(), { mark: 'left', lamp: 'key', stops: -4 });
    expect(report.lamps[0]).toMatchObject({ nets_stops: 0 });
  });
});

describe('saving the levels', () => {
  const setups = [{ id: 'night', changes: { fill: { level: 0.3, on: true }, key: { filters: ['nd-03'] } } }];

  it('in the base changes nothing but levels', () => {
    const scene = frozen(stage({ setups }));
    const report = balanced(scene, { mark: 'left', lamp: 'key', stops: -1 });
    const after = withLevels(scene, undefined, report.lamps);
    expect(after.lamps![0]).toEqual({ ...scene.lamps![0], level: 0.5 });
    expect({ ...after, lamps: [] }).toEqual({ ...scene, lamps: [] });
    expect(after.lamps!.slice(1)).toEqual(scene.lamps!.slice(1));
  });

  it('in the base are remembered by the readings of that lamp, in a setup by none', () => {
    const readings = [{ id: 'r', mark: 'left', lamps: ['key'], illuminance_lx: 100 }];
    const scene = frozen(stage({ setups, readings }));
    const report = balanced(scene, { mark: 'left', lamp: 'key', stops: -1 });
    const level = scene.lamps![0]!.level ?? 1;
    expect(withLevels(scene, undefined, report.lamps).readings).toEqual([
      { ...readings[0], taken: [{ lamp: 'key', level }] },
    ]);
    expect(withLevels(scene, 'night', report.lamps).readings).toBe(scene.readings);
  });

  it('in a setup become changes of it, beside those it has', () => {
    const scene = stage({ setups });
    const shown = sceneInSetup(scene, 'night');
    const report = balanced(shown, { mark: 'right', lamp: 'fill', stops: -2 });
    const after = withLevels(scene, 'night', report.lamps);
    expect(after.lamps).toEqual(scene.lamps);
    expect(after.setups![0]!.changes).toEqual({
      fill: { level: 0.25, on: true },
      key: { filters: ['nd-03'] },
    });
    expect(opened(after)).toEqual(after);
  });
});

describe('even white balance', () => {
  const asked = (scene: SceneDocument) => whiteBalanceReport(scene, compile(scene), {});
  const planck = (cct_K: number) => ({ kind: 'planck', cct_K });

  it('parts the groups at the widest gap and counts each by its mean', () => {
    const scene = stage({ 'heads.arc.spectrum': planck(5600) });
    const { split, lamps, whiteBalance_K } = asked(scene);
    // derived: 312.5 and 178.57 → 245.54 mired = 4073 K, ±67.
    expect(split).toMatchObject({ cool: ['arc'], warm: ['key', 'fill'] });
    expect(split!.whiteBalance_K).toBeCloseTo(4072.7, 0);
    expect(split!.split_mired).toBeCloseTo(66.96, 1);
    // derived: the camera's own, 5600 K when it has none: 312.5 − 178.57.
    expect(whiteBalance_K).toBe(5600);
    expect(lamps[0]!.offset_mired).toBeCloseTo(133.93, 1);
    expect(lamps[2]!.offset_mired).toBeCloseTo(0, 1);
  });

  it('is none for lamps of one colour', () => {
    expect(asked(stage()).split).toBeNull();
  });

  it('leaves out what is no white, and asks for a lamp', () => {
    const green = stage({ 'heads.arc.spectrum': planck(5600), 'lamps.1.filters': ['green'] });
    const { lamps, split } = asked(green);
    expect(lamps[1]).toMatchObject({ id: 'fill', cct_K: null, mired: null, offset_mired: null });
    expect(split).toMatchObject({ cool: ['arc'], warm: ['key'] });
    const dark = stage({ 'lamps.0.on': false, 'lamps.1.on': false, 'lamps.2.on': false });
    expect(() => asked(dark)).toThrow('lamps: found no lamp that is on; expected lamps to balance for');
  });
});
