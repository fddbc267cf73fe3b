import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aligned, atSameHeight } from '../../../src/editor/plan/arrange/align.ts';
import { dimensionsFrom } from '../../../src/editor/plan/arrange/dimensions.ts';
import { duplicateThings } from '../../../src/editor/plan/arrange/duplicate.ts';
import { mirrorThings, turned } from '../../../src/editor/plan/arrange/mirror.ts';
import { placeThings } from '../../../src/editor/plan/arrange/place-things.ts';
import { planThings, thingNamed } from '../../../src/editor/plan/arrange/plan-things.ts';
import { removeThings } from '../../../src/editor/plan/arrange/remove.ts';
import { caughtHeading_deg, headingOf_deg, turnThing } from '../../../src/editor/plan/arrange/turn.ts';
import { flat } from '../../../src/editor/plan/drawing/projection.ts';
import { bodyOutline } from '../../../src/editor/plan/shapes/body-outline.ts';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import type { Command } from '../../../src/scene/commands/command.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import type { Solid } from '../../../src/scene/schema/solid.ts';
import { fullScene, smallScene } from '../../support/scenes.ts';

function applied(document: SceneDocument, commands: readonly Command[]): SceneDocument {
  return commands.reduce((scene, command) => {
    const result = applyCommand(scene, command);
    expect(result.problems).toBeUndefined();
    return result.document!;
  }, document);
}

/** The small scene with two lamps, a figure, an area, a path and a haze box. */
function yard(): SceneDocument {
  const scene = smallScene();
  return {
    ...scene,
    lamps: [
      { ...scene.lamps![0]!, name: 'Key' },
      { id: 'rim', name: 'Rim', head: 'plain', position_m: [4, 3, -2], aim_m: [0, 1, 0], roll_deg: 15 },
    ],
    figures: [{ id: 'ada', name: 'Ada', position_m: [1, 0, 1], heading_deg: 30 }],
    site: {
      keepOut: [
        {
          id: 'edge',
          name: 'Edge',
          outline_m: [
            [0, 0],
            [4, 0],
            [4, 2],
            [0, 2],
          ],
        },
      ],
    },
    haze: {
      visibility_m: 500,
      regions: [{ position_m: [0, 1, 0], size_m: [4, 2, 4], rotation_deg: [0, 40, 0] }],
    },
    paths: [
      {
        id: 'walk',
        of: 'walker',
        points: [
          { t_s: 0, position_m: [0, 0, 3] },
          { t_s: 2, position_m: [2, 0, 3] },
        ],
      },
    ],
  };
}

const some = (document: SceneDocument, ...ids: string[]) => ids.map((id) => thingNamed(document, id)!);

describe('what stands on the plan', () => {
  it('is everything with a place, areas by their middle, haze boxes by their number', () => {
    const things = planThings(yard());
    expect(things.map(({ id }) => id)).toEqual([
      'key',
      'rim',
      'face',
      'ada',
      'a',
      'card',
      'walk',
      'edge',
      'haze 1',
    ]);
    expect(thingNamed(yard(), 'edge')!.position_m).toEqual([2, 0, 1]);
    expect(thingNamed(yard(), 'card')!.name).toBe('card');
  });

  it('is nothing in an empty scene', () => {
    expect(planThings({ keyfall: 1, title: '' })).toEqual([]);
  });
});

describe('placing things', () => {
  it('moves each kind with all of its points, and leaves aims where they are', () => {
    const before = yard();
    const places = new Map(
      planThings(before).map(({ id, position_m: [x, y, z] }) => [id, [x + 1, y, z - 2] as const]),
    );
    const after = applied(before, placeThings(before, places));
    expect(after.lamps![1]).toMatchObject({ position_m: [5, 3, -4], aim_m: [0, 1, 0] });
    expect(after.cameras![0]).toMatchObject({ position_m: [2, 1.2, 1], look_m: [0, 1, 0] });
    expect(after.paths![0]!.points.map(({ position_m }) => position_m)).toEqual([
      [1, 0, 1],
      [3, 0, 1],
    ]);
    expect(after.site!.keepOut![0]!.outline_m).toEqual([
      [1, -2],
      [5, -2],
      [5, 0],
      [1, 0],
    ]);
    expect(after.haze!.regions![0]!.position_m).toEqual([1, 1, -2]);
  });

  it('keeps tenths of a millimetre and no noise', () => {
    const before = yard();
    const [command] = placeThings(before, new Map([['ada', [0.1 + 0.2, 0, -1e-9] as const]]));
    expect(command).toEqual({ do: 'change', id: 'ada', patch: { position_m: [0.3, 0, 0] } });
  });
});

describe('aligning', () => {
  const scene = yard();
  const things = some(scene, 'key', 'rim', 'ada');

  it('brings things to the outermost or to the middle between the outermost', () => {
    // Derived: x 0, 4, 1 and z 4, −2, 1.
    const xs = (alignment: 'left' | 'centre' | 'right') =>
      [...aligned(things, alignment, 'plan').values()].map(([x]) => x);
    expect(xs('left')).toEqual([0, 0, 0]);
    expect(xs('centre')).toEqual([2, 2, 2]);
    expect(xs('right')).toEqual([4, 4, 4]);
    const zs = [...aligned(things, 'middle', 'plan').values()].map(([, , z]) => z);
    expect(zs).toEqual([1, 1, 1]);
  });

  it('in elevation, top is the highest', () => {
    expect([...aligned(things, 'top', 'along-x').values()].map(([, y]) => y)).toEqual([3, 3, 3]);
  });

  it('brings to the height of the last', () => {
    expect(atSameHeight(things).get('rim')).toEqual([4, 0, -2]);
    expect(aligned([], 'left', 'plan').size).toBe(0);
  });
});

describe('mirroring', () => {
  it('turns what looks somewhere to its mirror image and twice is as it was', () => {
    const before = yard();
    const all = planThings(before);
    for (const axis of ['x', 'z'] as const) {
      const once = applied(before, mirrorThings(before, all, axis));
      const twice = applied(once, mirrorThings(once, planThings(once), axis));
      expect(twice.lamps).toEqual(before.lamps);
      expect(twice.cameras).toEqual(before.cameras);
      expect(twice.figures).toEqual(before.figures);
      expect(twice.site).toEqual(before.site);
      expect(twice.paths).toEqual(before.paths);
    }
  });

  it('of one lamp keeps its place and mirrors its aim and its roll', () => {
    const before = yard();
    const after = applied(before, mirrorThings(before, some(before, 'rim'), 'x'));
    expect(after.lamps![1]).toMatchObject({ position_m: [4, 3, -2], aim_m: [8, 1, 0], roll_deg: -15 });
  });

  it('of a figure: 30° becomes −30° across x and 150° across z', () => {
    const before = yard();
    const heading = (axis: 'x' | 'z') =>
      applied(before, mirrorThings(before, some(before, 'ada'), axis)).figures![0]!.heading_deg;
    expect(heading('x')).toBe(-30);
    expect(heading('z')).toBe(150);
  });

  it('of any turned body is the mirror image of its outline, windows included', () => {
    const angle = fc.integer({ min: -179, max: 179 });
    const van: Extract<Solid, { shape: 'vehicle' }> = {
      id: 'van',
      shape: 'vehicle',
      material: 'gloss-white',
      position_m: [0, 0, 0],
      size_m: [6, 2.5, 2],
      windows: [
        { side: 'right', count: 2, first_m: 0.5, pitch_m: 1.5, width_m: 1, sill_m: 1, head_m: 2 },
        { side: 'front', count: 1, first_m: 0.3, width_m: 0.6, sill_m: 1, head_m: 1.8 },
      ],
    };
    const sheet: Solid = {
      id: 'sheet',
      shape: 'panel',
      material: 'gloss-white',
      position_m: [1, 1, 1],
      size_m: [2, 1],
      openings: [{ left_m: 0.2, bottom_m: 0.1, width_m: 0.5, height_m: 0.3 }],
    };
    const box: Solid = {
      id: 'box',
      shape: 'box',
      material: 'gloss-white',
      position_m: [1, 1, 1],
      size_m: [2, 1, 3],
    };
    const corners = (path: string): readonly (readonly [number, number])[] =>
      [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, u, v]) => [Number(u), Number(v)]);
    fc.assert(
      fc.property(
        fc.constantFrom<Solid>(van, sheet, box),
        fc.tuple(angle, angle, angle),
        fc.constantFrom('x' as const, 'z' as const),
        (shape, rotation_deg, axis) => {
          const solid = { ...shape, rotation_deg } as Solid;
          const scene: SceneDocument = { keyfall: 1, title: '', solids: [solid] };
          const mirrored = applied(scene, mirrorThings(scene, planThings(scene), axis)).solids![0]!;
          const middle = flat(solid.position_m, 'plan');
          for (const part of ['body', 'openings'] as const) {
            const wanted = corners(bodyOutline(solid, 'plan')[part]).map(([u, v]) =>
              axis === 'x' ? [2 * middle[0] - u, v] : [u, 2 * middle[1] - v],
            );
            for (const [u, v] of corners(bodyOutline(mirrored, 'plan')[part]))
              expect(wanted.some(([a, b]) => Math.hypot(a! - u, b! - v) < 0.003)).toBe(true);
          }
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });

  it('keeps angles within half a turn', () => {
    expect([190, -190, 540, -180, 0.0004].map(turned)).toEqual([-170, 170, 180, 180, 0]);
  });
});

describe('duplicating', () => {
  it('gives each copy an id and a name of its own, beside its original', () => {
    const before = yard();
    const { commands, ids } = duplicateThings(
      before,
      some(before, 'rim', 'edge', 'haze 1', 'walk'),
      [0.5, 0, 0.5],
    );
    const after = applied(before, commands);
    expect(ids).toEqual(['rim-2', 'edge-2', 'haze 2', 'walk-2']);
    expect(after.lamps!.at(-1)).toMatchObject({
      id: 'rim-2',
      name: 'Rim 2',
      position_m: [4.5, 3, -1.5],
      aim_m: [0, 1, 0],
    });
    expect(after.site!.keepOut).toHaveLength(2);
    expect(after.haze!.regions).toHaveLength(2);
    const again = duplicateThings(after, some(after, 'rim', 'rim-2'), [0, 0, 0]);
    expect(again.ids).toEqual(['rim-3', 'rim-4']);
  });

  it('of everything in a full scene is a valid scene', () => {
    const before = fullScene();
    const { commands, ids } = duplicateThings(before, planThings(before), [1, 0, 0]);
    const after = applied(before, commands);
    expect(planThings(after)).toHaveLength(2 * planThings(before).length);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe('removing', () => {
  it('takes things away, and haze with its last box', () => {
    const before = yard();
    const after = applied(before, removeThings(before, some(before, 'rim', 'edge', 'haze 1')));
    expect(after.lamps!.map(({ id }) => id)).toEqual(['key']);
    expect(after.site?.keepOut).toBeUndefined();
    expect(after.haze).toBeUndefined();
  });
});

describe('turning', () => {
  it('turns figures, solids, boxes of haze and marks that face a direction, about the upright axis', () => {
    const before = yard();
    for (const id of ['ada', 'card', 'haze 1', 'face']) {
      const after = applied(before, turnThing(before, id, 75));
      expect(headingOf_deg(after, id)).toBeCloseTo(75, 2);
    }
    expect(headingOf_deg(before, 'key')).toBeNull();
  });

  it('catches on every 15°, unless it must not', () => {
    expect(caughtHeading_deg(43.2, true)).toBe(45);
    expect(caughtHeading_deg(43.2, false)).toBe(43);
    expect(caughtHeading_deg(38.4, true)).toBe(38);
    expect(caughtHeading_deg(359, true)).toBe(0);
  });
});

describe('dimensions', () => {
  it('are what a tape reads', () => {
    // Derived: 3, 12, 4 is 13 through the air and 5 over the ground.
    expect(dimensionsFrom([1, 0, 1], [4, 12, 5])).toEqual({
      dx_m: 3,
      dy_m: 12,
      dz_m: 4,
      level_m: 5,
      straight_m: 13,
    });
  });
});
