import { describe, expect, it } from 'vitest';
import { chosenCamera } from '../../../src/scene/camera/scene-camera.ts';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { meterPoint, meterScene } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { edited, opened, smallScene } from '../../support/scenes.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

function scene(changes: Record<string, unknown> = {}): SceneDocument {
  return opened(edited(smallScene(), changes));
}

function report(document: SceneDocument, request = {}) {
  return meterScene(document, compileScene(document, FILES), request);
}

describe('the camera that stops are counted from', () => {
  const two = scene({ 'cameras.1': { ...smallScene().cameras![0]!, id: 'b', fNumber: 8 } });

  it('is the one that is asked for, else the first', () => {
    expect(chosenCamera(two).id).toBe('a');
    expect(chosenCamera(two, 'b').id).toBe('b');
  });

  it('is missed with the nearest that there is', () => {
    expect(() => chosenCamera(two, 'bb')).toThrow(
      'cameras: found no camera "bb"; expected one of a, b; did you mean "b"?',
    );
    expect(() => chosenCamera(scene({ cameras: [] }))).toThrow(
      'cameras: found no camera; expected a camera, because stops are counted from its exposure',
    );
    expect(() => chosenCamera(scene({ cameras: [] }), 'a')).toThrow(
      'cameras: found no camera "a"; expected a camera, because stops are counted from its exposure',
    );
  });

  it('sets the zero: f/8 instead of f/4 is two stops', () => {
    const [a] = report(two).marks;
    const [b] = report(two, { camera: 'b' }).marks;
    expect(a!.stops - b!.stops).toBeCloseTo(2, 12);
    expect(a!.illuminance_lx).toBe(b!.illuminance_lx);
  });

  it('with ND and lens loss needs that much more light', () => {
    const dark = scene({ 'cameras.0.nd_stops': 0.9, 'cameras.0.loss_stops': 0.3 });
    expect(report(scene()).marks[0]!.stops - report(dark).marks[0]!.stops).toBeCloseTo(1.2, 12);
    // Derived: C·N²/(t·S) = 250·16/(0.02·800) = 250 lx, times 2^1.2.
    expect(report(dark).exposure.zero.flat_lx).toBeCloseTo(250 * 2 ** 1.2, 9);
  });
});

describe('where a mark faces', () => {
  const point = (changes: Record<string, unknown>) => {
    const document = scene({ 'marks.0.position_m': [0, 1, 0], ...changes });
    return meterPoint(document, document.marks![0]!, document.cameras![0]!).facing;
  };

  it.each<[string, Record<string, unknown>, readonly number[]]>([
    ['the camera', { 'marks.0.facing': 'camera', 'cameras.0.position_m': [3, 1, 4] }, [0.6, 0, 0.8]],
    [
      'the camera when nothing is said',
      { 'marks.0.facing': undefined, 'cameras.0.position_m': [3, 1, 4] },
      [0.6, 0, 0.8],
    ],
    ['a lamp', { 'marks.0.facing': 'lamp:key', 'lamps.0.position_m': [0, 4, 4] }, [0, 0.6, 0.8]],
    ['a direction of any length', { 'marks.0.facing': [0, 0, -25] }, [0, 0, -1]],
  ])('%s', (_, changes, expected) => {
    const facing = point(changes);
    for (const [i, v] of expected.entries()) expect(facing[i]).toBeCloseTo(v, 12);
  });

  it('cannot be where it stands', () => {
    expect(() =>
      point({
        'marks.0.facing': 'camera',
        'cameras.0.position_m': [0, 1, 0],
        'cameras.0.look_m': [0, 1, -1],
      }),
    ).toThrow('marks[0].position_m (face): found a mark on the camera it faces; expected some distance');
    expect(() =>
      point({ 'marks.0.facing': 'lamp:key', 'lamps.0.position_m': [0, 1, 0], 'lamps.0.aim_m': [0, 1, -1] }),
    ).toThrow('marks[0].position_m (face): found a mark on the lamp it faces; expected some distance');
  });
});

describe('the report', () => {
  it('has the document’s meter constants, else the usual ones', () => {
    expect(report(scene()).exposure.calibration).toEqual({ flat: 250, dome: 330, reflected: 12.5 });
    expect(report(scene({ calibration: { dome: 340 } })).exposure.calibration).toEqual({
      flat: 250,
      dome: 340,
      reflected: 12.5,
    });
  });

  it('reads with a dome where nothing is said', () => {
    expect(report(scene({ 'marks.0.receptor': undefined })).marks[0]!.receptor).toBe('dome');
  });

  it('is the same to the last digit when asked again', () => {
    expect(report(scene())).toEqual(report(scene()));
  });

  it('of no marks has none, and of no lamps none', () => {
    expect(report(scene({ marks: [] })).marks).toEqual([]);
    const [mark] = report(scene({ lamps: [] })).marks;
    expect(mark).toMatchObject({
      illuminance_lx: 0,
      stops: Number.NEGATIVE_INFINITY,
      fNumber: 0,
      cct_K: null,
      duv: null,
      lamps: [],
    });
  });
});
