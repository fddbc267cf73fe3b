import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildGeometry, type Geometry } from '../../../src/core/geometry/geometry.ts';
import type { Part } from '../../../src/core/geometry/shape.ts';
import { dot, length, subtract, type Vec3 } from '../../../src/core/math/vec3.ts';
import { randomStream } from '../../core/geometry/support/random.ts';
import { PANE_DIRECT, randomParts, uniformOf } from '../../core/geometry/support/random-scene.ts';
import { SCENES, sceneModel } from '../../preview/support/scene-models.ts';
import { type Glsl, openGlsl } from '../support/glsl.ts';
import { explained, looseness_m, sameLight } from './explained.ts';
import { cardAnswers, coreAnswer, sceneRays } from './rays.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl?.close());

const RAYS = 2500;
/** Rays that may meet something else than in the core, each for a reason that is checked. */
const MOST_DISAGREEMENTS = 0.01;

/**
 * The card against the core, ray by ray; answers how many rays panes let through in part. derived: both solve the same equations, the card in single precision, so where both
 * meet the same surface the distance is right to a millionth of it and to what shifting the surface by a quarter of the
 * looseness of single precision, seen under the ray's own angle, does.
 */
async function expectParity(
  name: string,
  geometry: Geometry,
  paneDirect: Float64Array,
  seed: number,
): Promise<number> {
  const uniform = uniformOf(randomStream(seed));
  const rays = sceneRays(geometry, uniform, RAYS);
  const { answers, draw_ms } = await cardAnswers(glsl, geometry, paneDirect, rays);
  const reasons = { 'coincident surfaces': 0, 'an edge': 0 };
  let hits = 0;
  let partly = 0;
  let worstDistance = 0;
  let worstNormal = 0;
  let worstRelative = 0;
  rays.forEach((ray, i) => {
    const core = coreAnswer(geometry, paneDirect, ray);
    const card = answers[i]!;
    const told = `${name}, seed ${seed}, ray ${i} [${ray}]: core ${JSON.stringify(core)}, card ${JSON.stringify(card)}`;
    if (core.part !== card.part || !sameLight(core.passed, card.passed)) {
      const reason = explained(geometry, paneDirect, ray, core, card, uniform);
      expect(reason, told).not.toBeNull();
      reasons[reason!]++;
      return;
    }
    if (core.passed > 0 && core.passed < 1) partly++;
    if (core.part < 0) return;
    hits++;
    const d: Vec3 = [ray[3], ray[4], ray[5]];
    const cosine = Math.abs(dot(d, core.normal)) / length(d);
    const loose = looseness_m(ray, core.t);
    const off_m = Math.abs(core.t - card.t) * length(d);
    const distance = off_m / (1e-6 * core.t * length(d) + loose / 4 / cosine);
    // A surface curves by its distance from itself over its radius, and no radius here is below 4 cm.
    const normal = length(subtract(card.normal, core.normal)) / (1e-6 + (off_m + loose / 4 / cosine) / 0.04);
    expect(distance, told).toBeLessThanOrEqual(1);
    expect(normal, told).toBeLessThanOrEqual(1);
    if (cosine > 1e-3) expect(card.front, told).toBe(core.front);
    worstDistance = Math.max(worstDistance, distance);
    worstNormal = Math.max(worstNormal, normal);
    if (cosine > 0.05 && core.t * length(d) > 0.5)
      worstRelative = Math.max(worstRelative, Math.abs(core.t - card.t) / core.t);
  });
  const disagreements = reasons['coincident surfaces'] + reasons['an edge'];
  console.info(
    `parity ${name}: ${geometry.shapeCount} shapes, ${RAYS} rays, ${hits} the same surface, ${partly} through panes, ` +
      `${reasons['coincident surfaces']} of coincident surfaces, ${reasons['an edge']} at an edge; at worst ` +
      `${worstDistance.toFixed(2)} of the allowed distance (${worstRelative.toExponential(1)} of it, from 0.5 m and steeper than 3°), ` +
      `${worstNormal.toFixed(2)} of the allowed normal; ${draw_ms.toFixed(0)} ms`,
  );
  expect(hits).toBeGreaterThan(RAYS / 4);
  expect(disagreements).toBeLessThanOrEqual(MOST_DISAGREEMENTS * RAYS);
  return partly;
}

/** A closed ball with bumps, of 2·rings² triangles. */
function bumpyBall(rings: number): Geometry {
  const at = (i: number, j: number): Vec3 => {
    const theta = (Math.PI * i) / rings;
    const phi = (2 * Math.PI * j) / rings;
    const r = 5 + 0.3 * Math.sin(20 * theta) * Math.sin(16 * phi);
    return [r * Math.sin(theta) * Math.cos(phi), r * Math.cos(theta), r * Math.sin(theta) * Math.sin(phi)];
  };
  const parts: Part[] = [];
  const add = (a_m: Vec3, b_m: Vec3, c_m: Vec3) => {
    parts.push({
      shape: { kind: 'triangle', a_m, b_m, c_m },
      substance: { kind: 'material', index: 0 },
      owner: 0,
    });
  };
  for (let i = 0; i < rings; i++)
    for (let j = 0; j < rings; j++) {
      add(at(i, j), at(i + 1, j), at(i + 1, j + 1));
      add(at(i, j), at(i + 1, j + 1), at(i, j + 1));
    }
  return buildGeometry(parts);
}

describe('rays on the card meet what they meet in the core', () => {
  it.each(SCENES)('in %s', async (name) => {
    const { geometry, paneDirect } = await sceneModel(name);
    await expectParity(name, geometry, paneDirect, 20_261_125);
  });

  it.each([1, 7, 70, 400, 2000])('in a soup of %i shapes', async (count) => {
    const uniform = uniformOf(randomStream(count));
    const geometry = buildGeometry(randomParts(uniform, count, count > 400 ? 12 : 6));
    const partly = await expectParity(`soup of ${count}`, geometry, PANE_DIRECT, 41 + count);
    if (count >= 70) expect(partly).toBeGreaterThan(20);
  });

  it('in a mesh of a hundred thousand triangles', async () => {
    await expectParity('mesh', bumpyBall(224), PANE_DIRECT, 100_352);
  });
});
