import type { Geometry } from '../../../src/core/geometry/geometry.ts';
import { nearestHit, transmittance } from '../../../src/core/geometry/ray-query.ts';
import { newHit } from '../../../src/core/geometry/ray-shape.ts';
import { add, normalize, scale, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import type { Packed } from '../../../src/preview/pack/layout.ts';
import { PANE, uniformsOf } from '../../../src/preview/pack/layout.ts';
import { packGeometry } from '../../../src/preview/pack/pack-geometry.ts';
import { packPanes } from '../../../src/preview/pack/pack-panes.ts';
import { newTables } from '../../../src/preview/pack/tables.ts';
import { newTexels } from '../../../src/preview/pack/texels.ts';
import { rayQuery } from '../../../src/preview/shaders/ray-query.ts';
import type { Uniform } from '../../core/geometry/support/random-scene.ts';
import type { Glsl } from '../support/glsl.ts';

/** Origin, direction, tMin, tMax: as the shader gets them, rounded to single precision. */
export type TestRay = readonly [number, number, number, number, number, number, number, number];

/** Seeded rays of every way through a scene: from anywhere, toward it, from its surfaces, between two of them, along an axis, square to one, from afar. */
export function sceneRays(geometry: Geometry, uniform: Uniform, count: number): TestRay[] {
  const { bounds } = geometry;
  const pick = (): Vec3 => {
    const shape = Math.floor(uniform(0, geometry.shapeCount)) * 6;
    return [0, 1, 2].map((k) => uniform(bounds[shape + k]!, bounds[shape + k + 3]!)) as unknown as Vec3;
  };
  const direction = (): Vec3 => normalize([uniform(-1, 1), uniform(-1, 1), uniform(-1, 1)]);
  const surface = (): { p: Vec3; n: Vec3 } => {
    for (let i = 0; i < 50; i++) {
      const o = add(pick(), scale(direction(), uniform(0.5, 10)));
      const d = normalize(subtract(pick(), o));
      if (!nearestHit(geometry, ...o, ...d, 0, 1e4, hit)) continue;
      const side = hit.front ? 1 : -1;
      return { p: add(o, scale(d, hit.t)), n: [side * hit.nx, side * hit.ny, side * hit.nz] };
    }
    return { p: pick(), n: [0, 1, 0] };
  };
  return Array.from({ length: count }, (_, i): TestRay => {
    const kind = i % 7;
    if (kind === 0)
      return rounded([...add(pick(), scale(direction(), uniform(0.01, 0.3))), ...direction(), 0, 1e5]);
    if (kind === 1) {
      const o = add(pick(), scale(direction(), uniform(1, 20)));
      return rounded([...o, ...subtract(pick(), o), 0, 10]);
    }
    if (kind === 2) {
      const { p, n } = surface();
      const d = direction();
      const up = d[0] * n[0] + d[1] * n[1] + d[2] * n[2] > 0 ? 1 : -1;
      return rounded([...add(p, scale(n, 1e-4)), ...scale(d, up), 0, 1e5]);
    }
    if (kind === 3) {
      const [from, to] = [surface(), surface()];
      const o = add(from.p, scale(from.n, 1e-3));
      return rounded([...o, ...subtract(add(to.p, scale(to.n, 1e-3)), o), 0, 1]);
    }
    if (kind === 4 || kind === 5) {
      // Components of zero, both of their signs.
      const d = [...direction()];
      d[i % 3] = kind === 4 ? 0 : -0;
      if (kind === 4) d[(i + 1) % 3] = -0;
      return rounded([...add(pick(), scale(direction(), uniform(0.01, 5))), ...d, 0, 1e4]);
    }
    const o = scale(direction(), uniform(50, 300));
    return rounded([...o, ...normalize(subtract(pick(), o)), 0, 1e4]);
  });
}

const hit = newHit();

function rounded(ray: readonly number[]): TestRay {
  return ray.map(Math.fround) as unknown as TestRay;
}

export interface Answer {
  /** −1 where nothing is met. */
  readonly part: number;
  readonly t: number;
  readonly normal: Vec3;
  readonly front: boolean;
  readonly passed: number;
}

export function coreAnswer(geometry: Geometry, paneDirect: Float64Array, ray: TestRay): Answer {
  const met = nearestHit(geometry, ...ray, hit);
  return {
    part: met ? hit.shape : -1,
    t: met ? hit.t : 0,
    normal: met ? [hit.nx, hit.ny, hit.nz] : [0, 0, 0],
    front: met && hit.front,
    passed: transmittance(geometry, ...ray, paneDirect),
  };
}

/** What the card says of the rays. */
export async function cardAnswers(
  glsl: Glsl,
  geometry: Geometry,
  paneDirect: Float64Array,
  rays: readonly TestRay[],
): Promise<{ readonly answers: Answer[]; readonly build_ms: number; readonly draw_ms: number }> {
  const bodies = packGeometry(geometry);
  const panes = packedPanesAlone(paneDirect);
  const { values, build_ms, draw_ms } = await glsl.evaluate({
    chunks: [rayQuery],
    body: `
      Hit hit;
      hit.part = -1;
      hit.t = 0.0;
      hit.normal = vec3(0.0);
      hit.front = false;
      nearestHit(given3(0), given3(3), given(6), given(7), hit);
      give(0, float(hit.part));
      give(1, hit.t);
      give(2, transmittance(given3(0), given3(3), given(6), given(7), false));
      give(3, hit.front ? 1.0 : 0.0);
      give(4, hit.normal);`,
    given: Float32Array.from(rays.flat()),
    givenCount: 8,
    resultCount: 7,
    textures: { ...bodies.textures, ...panes.textures },
    uniforms: uniformsOf(bodies, panes),
  });
  const answers = rays.map((_, i): Answer => {
    const [part, t, passed, front, x, y, z] = values.subarray(7 * i, 7 * i + 7) as unknown as number[];
    return { part: part!, t: t!, normal: [x!, y!, z!], front: front! > 0.5, passed: passed! };
  });
  return { answers, build_ms, draw_ms };
}

function packedPanesAlone(paneDirect: Float64Array): Packed {
  const lightTexels = newTexels(paneDirect.length * PANE.texelCount);
  const panes = Array.from(paneDirect, (direct, i) => ({
    id: `${i}`,
    name: '',
    direct,
    scattered: 0,
    spread_deg: 0,
  }));
  packPanes(
    panes,
    panes.map(() => null),
    newTables(),
    lightTexels.data,
    0,
  );
  return {
    textures: { lightTexels, tableTexels: newTexels(1) },
    sections: { panes: { at: 0, count: panes.length } },
    uniforms: {},
  };
}
