import { describe, expect, it } from 'vitest';
import { placementFrom } from '../../../src/core/geometry/placement.ts';
import type { Shape } from '../../../src/core/geometry/shape.ts';
import { distance, type Vec3 } from '../../../src/core/math/vec3.ts';
import { findGlints } from '../../../src/core/mirror/find-glints.ts';
import { inFrame, mayBeInFrame } from '../../../src/core/mirror/in-frame.ts';
import { reflectorsOf, roughGlosses } from '../../../src/core/mirror/reflectors-of.ts';
import { isotropic, lampAt, modelOf, opaque, pane, sheetAt } from '../../support/light-models.ts';
import { randomStream } from '../geometry/support/random.ts';
import { cameraAt, direction, GLOSS, sceneMaker, somewhere } from './support/mirror-scene.ts';

const placement = placementFrom([0, 0, 0]);
const SHAPES: Record<string, Shape> = {
  box: { kind: 'box', placement, halfSize_m: [1, 1, 1] },
  cylinder: { kind: 'cylinder', placement, radius_m: 0.5, halfHeight_m: 1 },
  capsule: { kind: 'capsule', placement, radius_m: 0.5, halfLength_m: 1 },
  sphere: { kind: 'sphere', centre_m: [0, 0, 0], radius_m: 1 },
};

describe('reflectors of a scene', () => {
  it.each([
    ['box', 6],
    ['cylinder', 3],
    ['capsule', 3],
    ['sphere', 1],
  ])('are of a %s its %i faces', (kind, count) => {
    const model = modelOf({ parts: [opaque(SHAPES[kind]!)], surfaces: [GLOSS] });
    expect(reflectorsOf(model)).toHaveLength(count);
  });

  it('are neither matt nor rough nor panes; a mesh is one, and the same list comes again', () => {
    const triangle = (x: number): Shape => ({
      kind: 'triangle',
      a_m: [x, 0, 0],
      b_m: [x + 1, 0, 0],
      c_m: [x, 1, 0],
    });
    const model = modelOf({
      parts: [
        opaque(SHAPES.box!, 0),
        opaque(SHAPES.box!, 1),
        pane(sheetAt(0, 0, 0, 1, 1)),
        opaque(triangle(0), 2),
        opaque(triangle(3), 2),
      ],
      surfaces: [{}, { roughness: 0.9, coatIor: 1.5 }, GLOSS],
      panes: [0.9],
    });
    const found = reflectorsOf(model);
    expect(found).toHaveLength(1);
    expect([...found[0]!.box_m]).toEqual([0, 0, 0, 4, 1, 0]);
    expect(reflectorsOf({ ...model, lamps: [] })).toBe(found);
    expect(roughGlosses(model)).toEqual([0]);
  });
});

describe('glints in round things', () => {
  const scene = sceneMaker();
  const seen = (shape: Shape, at: Vec3, look: Vec3, eye: Vec3) =>
    findGlints(
      scene([opaque(shape)], [lampAt(at, look, isotropic(1e5), { shape: 'disc', radius_m: 0.05 })]),
      {
        camera: cameraAt(eye, look),
        zero_cd_m2: 1,
      },
    );

  it('lie on the side of a cylinder, the end of a capsule and the flat end of a drum', () => {
    // derived: by symmetry between eye and lamp
    const [side] = seen(SHAPES.cylinder!, [3, 0.2, 1], [0.5, 0, 0], [3, -0.2, -1]);
    expect(distance(side!.point_m, [0.5, 0, 0])).toBeLessThan(1e-6);
    expect(side!.approximate).toBe(true);
    const [end] = seen(SHAPES.capsule!, [1, 4, 0], [0, 1.5, 0], [-1, 4, 0]);
    expect(distance(end!.point_m, [0, 1.5, 0])).toBeLessThan(1e-6);
    const [top, ...others] = seen(SHAPES.cylinder!, [1, 3, 0.1], [0, 1, 0], [-1, 3, -0.1]);
    expect(distance(top!.point_m, [0, 1, 0])).toBeLessThan(1e-6);
    expect(top!.approximate).toBe(false);
    expect(others.filter(({ kind }) => kind === 'image')).toHaveLength(0);
    // derived: the corner of the square about the end is not there
    const corner = seen(SHAPES.cylinder!, [1.45, 3, 0.45], [0.45, 1, 0.45], [-0.55, 3, 0.45]);
    expect(corner.filter(({ kind }) => kind === 'image')).toHaveLength(0);
  });
});

describe('what may be in frame', () => {
  it('is never missed', () => {
    const random = randomStream(9);
    let outside = 0;
    for (let i = 0; i < 2000; i++) {
      const eye = somewhere(random, 3);
      const look = direction(random);
      const camera = cameraAt(eye, [eye[0] + look[0], eye[1] + look[1], eye[2] + look[2]], 0.1 + random());
      const [p, q] = [somewhere(random, 3), somewhere(random, 3)];
      const box = Float64Array.from([
        ...[0, 1, 2].map((k) => Math.min(p[k]!, q[k]!)),
        ...[0, 1, 2].map((k) => Math.max(p[k]!, q[k]!)),
      ]);
      if (mayBeInFrame(camera, box)) continue;
      outside++;
      for (let j = 0; j < 20; j++) {
        const inside = [0, 1, 2].map((k) => p[k]! + random() * (q[k]! - p[k]!)) as unknown as Vec3;
        expect(inFrame(camera, inside)).toBe(false);
      }
    }
    expect(outside).toBeGreaterThan(200);
  });
});
