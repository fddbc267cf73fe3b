import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileScene } from '../../../src/scene/compile/compile-scene.ts';
import { glintsAlongPath, searchAlongPath } from '../../../src/scene/mirror/along-path.ts';
import { burningGlints } from '../../../src/scene/mirror/burning.ts';
import { cameraAt, withLampAt } from '../../../src/scene/mirror/moved.ts';
import { positionAt_m } from '../../../src/scene/moves/position-at.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { rakedSide } from '../../support/raked-side.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

function seen(document: SceneDocument) {
  return { document, model: compileScene(document, FILES), camera: document.cameras![0]! };
}

/** Half the vehicle's wall is open windows, so that glints come and go. */
const WINDOWED = {
  id: 'body',
  shape: 'vehicle',
  material: 'gloss',
  position_m: [5, 0, -1.5],
  size_m: [30, 3, 3],
  roofRadius_m: 0,
  windows: [{ side: 'right', count: 9, first_m: 1, pitch_m: 3, width_m: 1.5, sill_m: 0.5, head_m: 2.9 }],
};

function scene(
  of: string,
  from: readonly number[],
  to: readonly number[],
  more: Record<string, unknown> = {},
) {
  const points = [
    { t_s: 1, position_m: from },
    { t_s: 5, position_m: to },
  ];
  return rakedSide({ 'solids.0': WINDOWED, paths: [{ id: 'move', of, points }], ...more });
}

describe('glints along a move', () => {
  it.each(['a', 'back'])(
    'are found when asking at any time finds them: a path of %s',
    (of) => {
      const at = (x: [number, number], z: [number, number]) =>
        fc.tuple(
          fc.double({ min: x[0], max: x[1], noNaN: true }),
          fc.double({ min: 1.4, max: 2.6, noNaN: true }),
          fc.double({ min: z[0], max: z[1], noNaN: true }),
        );
      const ends = of === 'a' ? at([-4, 6], [3, 7]) : at([14, 28], [1, 3]);
      fc.assert(
        fc.property(ends, ends, (from, to) => {
          const document = scene(of, from, to);
          const { model, camera } = seen(document);
          const { runs } = glintsAlongPath({ document, model, camera }, 'move');
          for (let t_s = 1; t_s <= 5; t_s += 0.13) {
            // At the ends of a run both answers are right within what ends are good to.
            if (runs.some((run) => Math.min(Math.abs(run.from_s - t_s), Math.abs(run.to_s - t_s)) < 0.04))
              continue;
            const place = positionAt_m(document.paths![0]!, t_s);
            const found =
              of === 'a'
                ? burningGlints(document, model, cameraAt(camera, place))
                : burningGlints(document, seen(withLampAt(document, 'back', place)).model, camera);
            expect(runs.some((run) => run.from_s <= t_s && t_s <= run.to_s)).toBe(found.length > 0);
          }
        }),
        { seed: 20_260_304, numRuns: 4 },
      );
    },
    60_000,
  );

  it('have ends good to 0.02 s, in metres along the move and as places', () => {
    const document = scene('a', [0, 1.5, 6], [0, 1.5, 2], { 'solids.0': rakedSide().solids![0] });
    const { model, camera } = seen(document);
    const along = glintsAlongPath({ document, model, camera }, 'move');
    expect(along).toMatchObject({ moves: { kind: 'camera', id: 'a' }, camera: 'a', from_s: 1, to_s: 5 });
    expect(along.length_m).toBeCloseTo(4, 9);
    const [run, ...others] = along.runs;
    expect(others).toEqual([]);
    // The camera goes 1 m/s from the first second on.
    expect(run!.from_m).toBeCloseTo(run!.from_s - 1, 9);
    expect(run!.fromPosition_m[2]).toBeCloseTo(6 - run!.from_m, 9);
    const burns = (t_s: number) =>
      burningGlints(document, model, cameraAt(camera, positionAt_m(document.paths![0]!, t_s))).length > 0;
    for (const [edge_s, outward] of [
      [run!.from_s, -1],
      [run!.to_s, 1],
    ] as const) {
      if (edge_s === 1 || edge_s === 5) continue;
      expect(burns(edge_s)).toBe(true);
      expect(burns(edge_s + 0.02 * outward)).toBe(false);
    }
  });

  it('may be none, or all the way', () => {
    const none = scene('a', [0, 1.5, 6], [1, 1.5, 6], { 'lamps.0.position_m': [60, 3, 2] });
    expect(glintsAlongPath(seen(none), 'move').runs).toEqual([]);
    const flat = { 'solids.0': rakedSide().solids![0] };
    const all = glintsAlongPath(seen(scene('a', [4, 1.5, 6], [5, 1.5, 6], flat)), 'move');
    expect(all.runs).toMatchObject([{ lamp: 'back', solid: 'body', from_s: 1, to_s: 5, from_m: 0 }]);
  });

  it('are asked for a camera’s or a lamp’s move only', () => {
    const walker = scene('walker', [0, 0, 4], [3, 0, 4]);
    expect(() => glintsAlongPath(seen(walker), 'move')).toThrow(
      'paths[0].of (move): found "walker"; expected a camera or a lamp',
    );
    const document = scene('a', [0, 1.5, 6], [1, 1.5, 6]);
    expect(() => glintsAlongPath(seen(document), 'moves')).toThrow(
      'found no path "moves"; expected one of move; did you mean "move"?',
    );
    const dark = scene('a', [0, 1.5, 6], [1, 1.5, 6], { 'lamps.0.on': false });
    expect(() => glintsAlongPath(seen(dark), 'move')).toThrow('lamps: found no lamp that is lit');
  });

  it('may be given up on the way', () => {
    const search = searchAlongPath(seen(scene('a', [0, 1.5, 6], [4, 1.5, 6])), 'move');
    expect(search.next().value).toBeGreaterThan(0);
    search.return(undefined as never);
    expect(search.next().done).toBe(true);
  });
});
