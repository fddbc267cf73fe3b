import { describe, expect, it } from 'vitest';
import { levelToward, rightTurn_deg } from '../../../src/scene/building/directions.ts';
import { jobFor } from '../../../src/scene/building/lamp-job.ts';
import { makeLamp } from '../../../src/scene/building/make-lamp.ts';
import { bodiesOf, seesFreely, standingLevel_m } from '../../../src/scene/building/standing-room.ts';
import { subjectOf } from '../../../src/scene/building/subject.ts';
import { supplyWithRoom } from '../../../src/scene/building/supply-with-room.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import type { Lamp } from '../../../src/scene/schema/lamp.ts';
import { edited, opened } from '../../support/scenes.ts';
import { EMPTY, sceneNamed, seen, withMade } from './support.ts';

const FIELD = opened({
  ...EMPTY,
  solids: [{ id: 'field', shape: 'box', position_m: [0, -0.5, 0], size_m: [100, 1, 100], material: 'grass' }],
  marks: [{ id: 'face', position_m: [0, 1.6, 0] }],
  cameras: [
    {
      id: 'a',
      position_m: [0, 1.6, 8],
      look_m: [0, 1.6, 0],
      sensor_mm: [36, 24],
      focal_mm: 50,
      fNumber: 4,
      shutter_s: 0.02,
      iso: 1600,
    },
  ],
});

function lampOf(
  document: SceneDocument,
  ...args: Parameters<typeof makeLamp> extends [unknown, ...infer R] ? R : never
): Lamp {
  const made = makeLamp(seen(document), ...args);
  return withMade(document, made).lamps!.at(-1)!;
}

describe('a lamp of a job', () => {
  it('stands where its job wants it: angle, height and stops by hand', () => {
    const key = lampOf(FIELD, 'led-softbox-120', 'key');
    // Derived: 2000 cd (125 lx · 16 m²) give the dome's zero, 330·16·50/1600 = 165 lx, at √(2000/165) = 3.48 m; 45° round and
    // 25° up: 3.48·cos 25° = 3.155 level, of which 2.231 each way, and 1.6 + 3.155·tan 25° = 3.07, which its stand of 2.8 m
    // ends.
    expect(key.position_m[0]).toBeCloseTo(-2.23, 2);
    expect(key.position_m[1]).toBe(2.8);
    expect(key.position_m[2]).toBeCloseTo(2.23, 2);
    expect(key.aim_m).toEqual([0, 1.6, 0]);
    // Derived: 3.155² + 1.2² = 11.39 m², 165·11.39/2000 = 0.94, to 5 %.
    expect(key.level).toBe(0.95);
    const rim = lampOf(FIELD, 'led-head-spot', 'rim');
    const round = rightTurn_deg([0, 0, 1], levelToward([0, 0, 0], rim.position_m));
    // 145° would be in the frame of 39.6° by 27: the next try, 15° on, is not.
    expect(round).toBeCloseTo(130, 0);
  });

  it('goes elsewhere where it may not, cannot or is not to stand', () => {
    const free = lampOf(FIELD, 'led-softbox-120', 'key').position_m;
    const [x, , z] = free;
    const around = (by: number): [number, number][] => [
      [x - by, z - by],
      [x + by, z - by],
      [x + by, z + by],
      [x - by, z + by],
    ];
    const forbidden = edited(FIELD, {
      site: { keepOut: [{ id: 'lane', outline_m: around(0.3) }] },
    }) as SceneDocument;
    expect(lampOf(opened(forbidden), 'led-softbox-120', 'key').position_m).not.toEqual(free);

    const walled = edited(FIELD, {
      'solids.1': {
        id: 'block',
        shape: 'box',
        position_m: [x / 2, 1.5, z / 2],
        size_m: [0.6, 3, 0.6],
        material: 'concrete',
      },
    }) as SceneDocument;
    const beside = lampOf(opened(walled), 'led-softbox-120', 'key').position_m;
    expect(seesFreely(bodiesOf(opened(walled)), beside, [0, 1.6, 0])).toBe(true);

    const taken = withMade(FIELD, makeLamp(seen(FIELD), 'led-softbox-120', 'key'));
    const second = lampOf(taken, 'led-softbox-120', 'key').position_m;
    expect(Math.hypot(second[0] - x, second[2] - z)).toBeGreaterThanOrEqual(0.79);
  });

  it('keeps to the quay and sees past the boat', () => {
    const quay = sceneNamed('night-quay');
    for (const [head, job] of [
      ['discharge-1800-flood', 'back'],
      ['led-softbox-120', 'key'],
      ['led-head-spot', 'rim'],
    ] as const) {
      const surroundings = seen(quay, ['ben']);
      const lamp = withMade(quay, makeLamp(surroundings, head, job)).lamps!.at(-1)!;
      const [x, , z] = lamp.position_m;
      expect(standingLevel_m(bodiesOf(quay), x, z, 0)).toBe(0);
      expect(seesFreely(bodiesOf(quay), lamp.position_m, subjectOf(surroundings).aim_m)).toBe(true);
    }
  });

  it('takes the head’s nature for a hint of what is missing', () => {
    const subject = subjectOf(seen(FIELD));
    const job = (head: string, lamps: Lamp[] = []) => jobFor(LIBRARY.heads[head]!, subject, lamps);
    const front = { id: 'f', head: 'bulb-60', position_m: [2, 2, 4], aim_m: [0, 1, 0] } as Lamp;
    const behind = { ...front, id: 'b', position_m: [2, 2, -4] } as Lamp;
    expect(job('led-softbox-120')).toBe('key');
    expect(job('led-softbox-120', [front])).toBe('fill');
    expect(job('discharge-1800-spot')).toBe('back');
    expect(job('discharge-1800-spot', [behind])).toBe('key');
    expect(job('led-head-spot')).toBe('key');
    expect(job('led-head-spot', [front])).toBe('rim');
    expect(job('led-head-spot', [front, behind])).toBe('fill');
  });
});

describe('a lamp where the plan is pressed', () => {
  it('stands there on its ground and is aimed at whoever is near', () => {
    const lamp = lampOf(FIELD, 'tungsten-650-flood', null, [3, 99, -2]);
    expect([lamp.position_m[0], lamp.position_m[2]]).toEqual([3, -2]);
    expect(lamp.position_m[1]).toBeLessThanOrEqual(2.8);
    expect(lamp.aim_m).toEqual([0, 1.6, 0]);
    expect(lamp.name).toBe('Lamp 1');
  });

  it('a bulb hangs and shines down, without a stand', () => {
    const lamp = lampOf(FIELD, 'bulb-60', null, [3, 0, -2]);
    expect(lamp.position_m).toEqual([3, 2, -2]);
    expect(lamp.aim_m).toEqual([3, 1, -2]);
    expect(lamp.stand).toBeUndefined();
  });

  it('right at its aim it shines down rather than nowhere', () => {
    const low = opened({ ...FIELD, marks: [{ id: 'low', position_m: [0, 0.4, 0] }] });
    const lamp = lampOf(low, 'led-head-spot', null, [0, 0, 0]);
    expect(Math.hypot(...lamp.aim_m.map((v, i) => v - lamp.position_m[i]!))).toBeGreaterThan(0.5);
  });

  it('of a photometric file is put at a usual distance, at full', () => {
    const own = opened({
      ...FIELD,
      heads: {
        measured: {
          ...LIBRARY.heads['led-head-spot']!,
          photometry: { kind: 'file', file: 'head.ies', text: 'x' },
        },
      },
    });
    const lamp = lampOf(own, 'measured', 'key');
    expect(lamp.level).toBeUndefined();
  });
});

describe('the supply of a lamp', () => {
  const on = (supplies: unknown[], lamps: unknown[] = []) => opened({ ...FIELD, supplies, lamps });
  const socket = (id: string, breaker_A: number) => ({ id, kind: 'mains', volts: 230, breaker_A });

  it('is the one with most room left, batteries last', () => {
    expect(supplyWithRoom(FIELD, 'led-head-spot')).toBeUndefined();
    const battery = { id: 'block', kind: 'battery', volts: 14.4, capacity_Wh: 150 };
    expect(supplyWithRoom(on([battery, socket('small', 6), socket('large', 16)]), 'led-head-spot')).toBe(
      'large',
    );
    expect(supplyWithRoom(on([battery]), 'led-head-spot')).toBe('block');
  });

  it('counts what hangs on it: 16 A carry 12.8 for hours, and a head of 2070 W takes 9.2', () => {
    const big = {
      id: 'big',
      head: 'discharge-1800-flood',
      position_m: [9, 2, 0],
      aim_m: [0, 1, 0],
      supply: 'first',
    };
    const full = on([socket('first', 16), socket('second', 13)], [big]);
    // Derived: 12.8 − 9.18 = 3.6 A are left of the first, 10.4 of the second.
    expect(supplyWithRoom(full, 'discharge-1800-flood')).toBe('second');
    expect(supplyWithRoom(on([socket('first', 16)], [big]), 'discharge-1800-flood')).toBe('first');
  });
});
