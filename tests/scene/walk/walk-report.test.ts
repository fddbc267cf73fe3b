import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import { type WalkRequest, walkReport } from '../../../src/scene/walk/walk-report.ts';
import { bodyAt, chosenWalker, withoutWalker } from '../../../src/scene/walk/walker.ts';
import { edited, opened, smallScene } from '../../support/scenes.ts';

const NO_FILES = { photometry: new Map(), meshes: new Map() };
const CROSS = {
  id: 'cross',
  of: 'walker',
  points: [
    { t_s: 0, position_m: [-2, 0, 2] },
    { t_s: 4, position_m: [2, 0, 2] },
  ],
};

function walked(changes: Record<string, unknown> = {}, request: WalkRequest = {}, path?: string) {
  const document = opened(edited(smallScene(), { paths: [CROSS], ...changes }));
  const walker = chosenWalker(document, path);
  const scene = withoutWalker(document, walker);
  return walkReport(scene, compileScene(scene, NO_FILES), walker, request);
}

describe('a walk', () => {
  it('has a row each step, from the first point to the last', () => {
    const { steps } = walked({}, { step_s: 0.5 });
    expect(steps.map(({ t_s }) => t_s)).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4]);
    expect(steps[1]!.position_m).toEqual([-1.5, 0, 2]);
    expect(steps[1]!.speed_m_per_s).toBeCloseTo(1, 9);
  });

  it('reads what a meter held there would, the walker not in its way', () => {
    const { steps, zero_lx } = walked({}, { step_s: 1 });
    const mark = { id: 'face', position_m: [0, 1.5, 2], facing: 'camera', receptor: 'dome' };
    const scene = opened(edited(smallScene(), { 'marks.0': mark }));
    const metered = meterScene(scene, compileScene(scene, NO_FILES)).marks[0]!;
    expect(Math.abs(Math.log2(steps[2]!.dome_lx / metered.dome_lx))).toBeLessThan(0.02);
    expect(steps[2]!.stops).toBeCloseTo(Math.log2(steps[2]!.dome_lx / zero_lx), 9);
    expect(steps[2]!.lamps.map(({ id }) => id)).toEqual(['key']);
  });

  it('shades marks while it stands between them and the lamp', () => {
    // derived: the lamp is 4 m before the card at its height, 1 m up; the walker at half the distance crosses x = 0 at 2 s;
    // its torso and arms at 1 m are 0.3 to 0.6 m along the walk at 1 m/s, and the face adds 0.2/2 s
    const { shadows, steps } = walked();
    expect(shadows.length).toBeGreaterThan(0);
    const [first, last] = [shadows[0]!, shadows.at(-1)!];
    expect(first.mark).toBe('face');
    expect(Math.abs((first.from_s + last.to_s) / 2 - 2)).toBeLessThan(0.15);
    expect(last.to_s - first.from_s).toBeGreaterThan(0.3);
    expect(last.to_s - first.from_s).toBeLessThan(1);
    expect(Math.min(...shadows.map(({ deepest_stops }) => deepest_stops))).toBe(Number.NEGATIVE_INFINITY);
    const middle = steps.find(({ t_s }) => t_s === 2)!;
    expect(middle.shadows).toMatchObject([{ mark: 'face', lamp: 'key' }]);
    expect(steps[0]!.shadows).toEqual([]);
  });

  it('does not shade what lies beyond its way, nor by lamps that are off', () => {
    const behind = {
      ...CROSS,
      points: CROSS.points.map((p) => ({ ...p, position_m: [p.position_m[0], 0, 6] })),
    };
    expect(walked({ paths: [behind] }).shadows).toEqual([]);
    const dark = walked({ 'lamps.0.on': false });
    expect(dark.shadows).toEqual([]);
    expect(dark.brightest).toMatchObject({ stops: Number.NEGATIVE_INFINITY, lamp: null });
  });

  it('of a figure leaves its own standing body out', () => {
    const figures = [{ id: 'ada', name: 'Ada', position_m: [-2, 0, 2], height_m: 1.6 }];
    const { name, height_m } = chosenWalker(
      opened(edited(smallScene(), { figures, paths: [{ ...CROSS, of: 'ada' }] })),
    );
    expect([name, height_m]).toEqual(['Ada', 1.6]);
    const report = walked({ figures, paths: [{ ...CROSS, of: 'ada' }] }, { step_s: 1 });
    const passerBy = walked({}, { step_s: 1 });
    expect(report.steps.map(({ dome_lx }) => dome_lx)).toEqual(passerBy.steps.map(({ dome_lx }) => dome_lx));
  });

  it('turns the body to where it goes, also while it waits', () => {
    const path = {
      ...CROSS,
      points: [
        { t_s: 0, position_m: [0, 0, 0] },
        { t_s: 1, position_m: [1, 0, 0] },
        { t_s: 2, position_m: [1, 0, 0] },
        { t_s: 3, position_m: [1, 0, 1] },
      ],
    };
    const walker = chosenWalker(opened(edited(smallScene(), { paths: [path] })));
    const headings = [0.5, 1.5, 2.5].map((t) => bodyAt(walker, t).heading_deg);
    expect(headings).toEqual([expect.closeTo(90, 6), expect.closeTo(90, 6), expect.closeTo(0, 6)]);
  });

  it('refuses paths and marks that are not there, and strips without end', () => {
    expect(() => walked({ paths: [] })).toThrow(
      'paths: found no path that someone walks; expected a path of "walker"',
    );
    expect(() => walked({}, {}, 'crss')).toThrow(
      'found no path "crss"; expected one of cross; did you mean "cross"?',
    );
    expect(() => walked({ paths: [{ ...CROSS, id: 'dolly', of: 'a' }] }, {}, 'dolly')).toThrow(
      'found "dolly", the path of "a", which does not walk',
    );
    expect(() => walked({}, { marks: ['fac'] })).toThrow(
      'found no mark "fac"; expected one of face; did you mean "face"?',
    );
    const day = { ...CROSS, points: [CROSS.points[0], { t_s: 86_400, position_m: [2, 0, 2] }] };
    expect(() => walked({ paths: [day] })).toThrow(
      'a walk of 86400 s in steps of 0.1 s; expected at most 3000 steps',
    );
    expect(() => walked({ cameras: [] })).toThrow('found no camera');
  });
});
