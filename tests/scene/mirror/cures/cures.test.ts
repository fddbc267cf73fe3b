import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, scale, type Vec3 } from '../../../../src/core/math/vec3.ts';
import { compileScene } from '../../../../src/scene/compile/compile-scene.ts';
import { meterScene } from '../../../../src/scene/meter/meter-scene.ts';
import { burningGlints } from '../../../../src/scene/mirror/burning.ts';
import { type Cure, curesOf, searchCures } from '../../../../src/scene/mirror/cures/cures.ts';
import { cameraStanding, lampStanding } from '../../../../src/scene/mirror/lamp-standing.ts';
import { withCamera, withLampAt } from '../../../../src/scene/mirror/moved.ts';
import { mayMoveTo } from '../../../../src/scene/mirror/standing.ts';
import type { SceneDocument } from '../../../../src/scene/schema/document.ts';
import { rakedSide } from '../../../support/raked-side.ts';

const FILES = { photometry: new Map(), meshes: new Map() };

function seen(document: SceneDocument) {
  return { document, model: compileScene(document, FILES), camera: document.cameras![0]! };
}

/** The document as a person would write it with the change made, so far along its own line. */
function withChange(document: SceneDocument, cure: Cure, by_m: number): SceneDocument {
  const camera = document.cameras![0]!;
  const from = cure.change.startsWith('lamp') ? document.lamps![0]!.position_m : camera.position_m;
  const whole = [0, 1, 2].map((i) => (cure.to_m[i]! - from[i]!) / cure.by_m) as unknown as Vec3;
  const to_m = [...add(from, scale(whole, by_m))] as [number, number, number];
  if (cure.change.startsWith('lamp')) return withLampAt(document, document.lamps![0]!.id, to_m);
  return withCamera(document, { ...camera, position_m: to_m });
}

/** The parts on which the first lamp burns in a solid, everything compiled anew. */
function partsThatBurn(document: SceneDocument, solid: string): number[] {
  const { model, camera } = seen(document);
  return burningGlints(document, model, camera)
    .filter(({ lamp, owner }) => lamp === 0 && model.owners[owner]!.id === solid)
    .map(({ part }) => part);
}

function mayBe(document: SceneDocument, cure: Cure, by_m: number): boolean {
  const { model, camera } = seen(document);
  const moved = withChange(document, cure, by_m);
  return cure.change.startsWith('lamp')
    ? mayMoveTo(lampStanding(document, model, document.lamps![0]!), moved.lamps![0]!.position_m)
    : mayMoveTo(cameraStanding(document, model, camera), moved.cameras![0]!.position_m);
}

const BODIES: readonly Record<string, unknown>[] = [
  { shape: 'box', position_m: [5, 1.5, -1.5], size_m: [30, 3, 3] },
  { shape: 'vehicle', position_m: [5, 0, -1.5], size_m: [30, 3, 3], roofRadius_m: 0.3 },
  {
    shape: 'vehicle',
    position_m: [5, 0, -1.5],
    size_m: [30, 3, 3],
    roofRadius_m: 0,
    windows: [{ side: 'right', count: 10, first_m: 1, pitch_m: 2.8, width_m: 1.2, sill_m: 1, head_m: 2.2 }],
  },
  { shape: 'cylinder', position_m: [6, 1.5, -1], radius_m: 1, height_m: 3 },
];
const POST = {
  id: 'post',
  shape: 'cylinder',
  position_m: [8, 1.5, 3],
  radius_m: 0.2,
  height_m: 3,
  material: 'matte-black',
};

describe('cures', () => {
  it('each takes the glint away, and two centimetres less does not', () => {
    const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const setUp = fc.record({
      lamp: fc.tuple(between(12, 28), between(1.5, 4), between(0.8, 4)),
      camera: fc.tuple(between(-2, 4), between(1, 2.2), between(2, 7)),
      body: fc.constantFrom(...BODIES),
      roughness: fc.constantFrom(0, 0.04, 0.1, 0.25),
      post: fc.boolean(),
    });
    let cured = 0;
    let partly = 0;
    fc.assert(
      fc.property(setUp, ({ lamp, camera, body, roughness, post }) => {
        const document = rakedSide({
          'materials.gloss.roughness': roughness,
          'solids.0': { id: 'body', material: 'gloss', ...body },
          ...(post ? { 'solids.1': POST } : {}),
          'lamps.0.position_m': lamp,
          'lamps.0.stand': { maxHeight_m: 5 },
          'cameras.0.position_m': camera,
          'cameras.0.look_m': [10, 1.5, 2],
        });
        for (const { solid, cures, partial } of curesOf(seen(document))) {
          for (const cure of cures) {
            cured++;
            expect(partsThatBurn(withChange(document, cure, cure.by_m), solid)).toEqual([]);
            const less = cure.by_m - 0.02;
            if (less <= 0) continue;
            const still = partsThatBurn(withChange(document, cure, less), solid).length > 0;
            expect(still || !mayBe(document, cure, less)).toBe(true);
          }
          const own = partsThatBurn(document, solid)[0]!;
          for (const cure of partial) {
            partly++;
            const left = partsThatBurn(withChange(document, cure, cure.by_m), solid);
            expect(left).not.toContain(own);
            expect(left.length).toBeGreaterThan(0);
            expect(cure.leaves.map(({ part }) => part)).toEqual(left);
          }
        }
      }),
      { seed: 20_260_303, numRuns: 16 },
    );
    expect(cured).toBeGreaterThan(40);
    expect(partly).toBeGreaterThan(0);
  }, 120_000);

  it('come cheapest first, one that makes another glint last', () => {
    const document = rakedSide({
      // A second side, across the first: what leaves the one may show in the other.
      'solids.1': {
        id: 'wall',
        shape: 'box',
        position_m: [32, 4, 5],
        size_m: [0.4, 8, 14],
        material: 'gloss',
      },
    });
    for (const { cures } of curesOf(seen(document))) {
      const clean = cures.filter(({ appears }) => appears.length === 0);
      expect(cures.slice(0, clean.length)).toEqual(clean);
    }
  });

  it('cost what the meter then reads', () => {
    const document = rakedSide({
      'lamps.1': { id: 'fill', head: 'big', position_m: [0, 2, 9], aim_m: [0, 2, 0], level: 0.002 },
      'marks.1': { id: 'face', position_m: [3, 1.6, 3], facing: 'camera', receptor: 'dome' },
    });
    const scene = seen(document);
    const before = meterScene(document, scene.model, { light: 'direct', error_stops: 0.005 }).marks;
    const pair = curesOf(scene).find(({ lamp }) => lamp === 'back')!;
    for (const cure of pair.cures) {
      if (!cure.change.startsWith('lamp')) {
        expect(cure).toMatchObject({ cost_stops: 0, cost: null });
        continue;
      }
      const moved = seen(withChange(document, cure, cure.by_m));
      const after = meterScene(moved.document, moved.model, { light: 'direct', error_stops: 0.005 }).marks;
      const changes = after.map((mark, i) => mark.stops - before[i]!.stops);
      const worst = changes.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
      expect(Math.abs(cure.cost_stops! - worst)).toBeLessThan(0.02);
      // The backlight gives the first mark, which faces it, by far the most.
      expect(cure.cost!.brightest.mark).toBe('rim');
      expect(Math.abs(cure.cost!.brightest.change_stops - changes[0]!)).toBeLessThan(0.02);
    }
  });

  it('are none where nothing burns', () => {
    expect(curesOf(seen(rakedSide({ 'lamps.0.on': false })))).toEqual([]);
    expect(curesOf(seen(rakedSide({ 'lamps.0.position_m': [60, 3, 2] })))).toEqual([]);
  });

  it('go no higher than the stand, nor into what is kept out, with any of the foot', () => {
    const low = rakedSide({ 'lamps.0.stand': { maxHeight_m: 3.4 } });
    expect(changes(low)).not.toContain('lamp-up');
    const zone = {
      id: 'edge',
      outline_m: [
        [-10, 0],
        [40, 0],
        [40, 1.45],
        [-10, 1.45],
      ],
    };
    expect(changes(rakedSide({}))).toContain('lamp-in');
    expect(changes(rakedSide({ site: { keepOut: [zone] } }))).not.toContain('lamp-in');
    // Derived: its foot of 0.3 m touches a zone whose edge is 0.3 m nearer.
    const foot = { maxHeight_m: 5, footRadius_m: 0.3 };
    const thin = {
      id: 'edge',
      outline_m: [
        [-10, 0],
        [40, 0],
        [40, 1],
        [-10, 1],
      ],
    };
    expect(changes(rakedSide({ site: { keepOut: [thin] } }))).toContain('lamp-in');
    expect(changes(rakedSide({ site: { keepOut: [thin] }, 'lamps.0.stand': foot }))).not.toContain('lamp-in');
  });

  it('are not carried through walls', () => {
    const wall = {
      id: 'wall',
      shape: 'box',
      position_m: [26, 2, 2],
      size_m: [0.2, 4, 3],
      material: 'matte-black',
    };
    const now = changes(rakedSide({ 'solids.1': wall }));
    expect(now).not.toContain('lamp-back');
    expect(now).toContain('lamp-up');
  });

  it('may be given up on the way', () => {
    const search = searchCures(seen(rakedSide({})));
    expect(search.next().done).toBe(false);
    search.return([]);
    expect(search.next().done).toBe(true);
  });
});

function changes(document: SceneDocument): string[] {
  return curesOf(seen(document)).flatMap(({ cures }) => cures.map(({ change }) => change));
}
