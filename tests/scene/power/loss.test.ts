import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../../src/scene/meter/meter-scene.ts';
import { powerScene } from '../../../src/scene/power/power-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { poweredScene } from '../../support/powered-scenes.ts';

const FILES = { photometry: new Map(), meshes: new Map() };
const metered = (scene: SceneDocument) => meterScene(scene, compileScene(scene, FILES), { light: 'direct' });

const scene = (off: readonly string[] = []) =>
  poweredScene(
    (['a', 'b', 'c'] as const).map((id, i) => [
      id,
      'led',
      {
        supply: id === 'c' ? 't' : 's',
        position_m: [2 * i - 2, 2, 0],
        aim_m: [2 * i - 2, 1, 5],
        ...(off.includes(id) ? { on: false } : {}),
      },
    ]),
    [
      { id: 's', name: 'Wall', kind: 'mains', volts: 230, breaker_A: 16 },
      { id: 't', kind: 'mains', volts: 230, breaker_A: 16 },
    ],
    {
      marks: [
        { id: 'front', position_m: [0, 1, 5], facing: [0, 0, -1], receptor: 'flat' },
        { id: 'back', position_m: [0, 1, 6], facing: [0, 0, 1], receptor: 'flat' },
      ],
      cameras: [
        {
          id: 'cam',
          position_m: [0, 1.5, -2],
          look_m: [0, 1, 5],
          sensor_mm: [36, 24],
          focal_mm: 35,
          fNumber: 4,
          shutter_s: 0.02,
          iso: 800,
        },
      ],
    },
  );

describe('losing a lamp or a supply', () => {
  const report = metered(scene());
  const losses = powerScene(scene(), { metered: report }).ifLost!;

  it('is told for every lamp, and for supplies that more than one hangs on', () => {
    expect(losses.map(({ what, id, name, lamps }) => [what, id, name, lamps])).toEqual([
      ['lamp', 'a', 'a', ['a']],
      ['lamp', 'b', 'b', ['b']],
      ['lamp', 'c', 'c', ['c']],
      ['supply', 's', 'Wall', ['a', 'b']],
    ]);
  });

  it.each([['a'], ['b'], ['c'], ['a', 'b']])('of %s %s is what metering without it says', (...lost) => {
    const without = metered(scene(lost)).marks[0]!;
    const loss = losses.find(({ lamps }) => lamps.join() === lost.join())!;
    // The same light metered anew: its own numerical error, asked for at under a hundredth of a stop, is the tolerance.
    expect(Math.abs(loss.marks[0]!.stops - without.stops)).toBeLessThan(0.01);
    expect(loss.marks[0]!.change_stops).toBeCloseTo(without.stops - report.marks[0]!.stops, 2);
    expect(loss.marks[0]!.change_stops).toBeLessThan(-0.1);
  });

  it('of the only lamp leaves a mark dark, and a dark mark loses nothing', () => {
    const one = scene(['b', 'c']);
    const [loss] = powerScene(one, { metered: metered(one) }).ifLost!;
    expect(loss!.marks.map((mark) => mark.change_stops)).toEqual([Number.NEGATIVE_INFINITY, 0]);
  });

  it('is not told unless it is asked for', () => {
    expect(powerScene(scene()).ifLost).toBeNull();
  });
});
