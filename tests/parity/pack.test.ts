import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newTracer } from '../../src/core/transport/tracer.ts';
import {
  BELONGING,
  BODY,
  DISTRIBUTION_KINDS,
  EMITTER,
  FACE_SHAPES,
  HAZE_REGION,
  NODE,
  PANE,
  SURFACE_KINDS,
  SURFACE_OPTICS,
} from '../../src/preview/pack/layout.ts';
import { packModel } from '../../src/preview/pack/pack-model.ts';
import { readStruct, type Struct } from '../../src/preview/pack/struct.ts';
import type { Chunk } from '../../src/preview/shaders/chunk.ts';
import { packedGeometry } from '../../src/preview/shaders/packed-geometry.ts';
import { packedHaze } from '../../src/preview/shaders/packed-haze.ts';
import { packedLamps } from '../../src/preview/shaders/packed-lamps.ts';
import { packedPanes } from '../../src/preview/shaders/packed-panes.ts';
import { packedSurfaces } from '../../src/preview/shaders/packed-surfaces.ts';
import { modelOfEveryKind } from '../preview/support/every-kind.ts';
import { type Glsl, openGlsl } from './support/glsl.ts';

let glsl: Glsl;
beforeAll(async () => {
  glsl = await openGlsl();
});
afterAll(() => glsl?.close());

const tracer = newTracer(await modelOfEveryKind());
const packed = packModel(tracer);

/** Every number of a struct, by what stands behind the name of a GLSL variable: `.origin.x`, `.face.shape`. */
function members({ places }: Struct): string[] {
  const parts = { float: [''], int: [''], bool: [''], vec2: ['.x', '.y'], vec3: ['.x', '.y', '.z'] };
  return places.flatMap(({ path, type }) =>
    (type === 'vec4' ? ['.x', '.y', '.z', '.w'] : parts[type]).map((part) => `.${path.join('.')}${part}`),
  );
}

/** What GLSL reads of entries 0 .. count − 1, number by number. */
async function readOnCard(chunk: Chunk, of: Struct, count: number, call: string): Promise<number[][]> {
  const names = members(of);
  const give = names.map((name, k) => `give(${k}, float(read${name}));`).join('\n');
  const { values } = await glsl.evaluate({
    chunks: [chunk],
    body: `int i = int(given(0));\n${of.name} read = ${call};\n${give}`,
    given: Float32Array.from({ length: count }, (_, i) => i),
    givenCount: 1,
    resultCount: names.length,
    textures: packed.textures,
    uniforms: packed.uniforms,
  });
  return Array.from({ length: count }, (_, i) => [
    ...values.subarray(i * names.length, (i + 1) * names.length),
  ]);
}

/** The same, read in TypeScript. */
function readHere(of: Struct, sampler: string, texel: number): number[] {
  const values = readStruct(of, packed.textures[sampler]!.data, texel);
  return of.places.flatMap(({ path }) => {
    const value = path.reduce<unknown>((inner, field) => (inner as Record<string, unknown>)[field], values);
    return Array.isArray(value) ? value : [Number(value)];
  });
}

describe('GLSL reads what was packed', () => {
  // derived: a float that is fetched is the float that was stored, so nothing may differ.
  const [nodesAt, shapesAt, openingsAt, surfacesAt, panesAt, lampsAt, lampOnSurfaceAt, hazeRegionsAt] = packed
    .uniforms.sectionAt as unknown as number[];
  const each = (of: Struct, sampler: string, at: number, stride: number, count: number) =>
    Array.from({ length: count }, (_, i) => readHere(of, sampler, at + i * stride));
  const { geometry, surfaces, panes } = tracer.model;
  const nodes = geometry.hierarchy.skip.length;

  it.each([
    ['nodes', packedGeometry, NODE, 'geometryTexels', nodesAt!, 2, nodes, 'nodeAt(i)'],
    ['bodies', packedGeometry, BODY, 'geometryTexels', shapesAt!, 5, geometry.shapeCount, 'bodyAt(i)'],
    [
      'belongings',
      packedGeometry,
      BELONGING,
      'geometryTexels',
      shapesAt! + 4,
      5,
      geometry.shapeCount,
      'belongingAt(i)',
    ],
    [
      'surfaces',
      packedSurfaces,
      SURFACE_OPTICS,
      'lightTexels',
      surfacesAt!,
      8,
      surfaces.length,
      'surfaceOptics(i)',
    ],
    [
      'blurred surfaces',
      packedSurfaces,
      SURFACE_OPTICS,
      'lightTexels',
      surfacesAt! + 4,
      8,
      surfaces.length,
      'blurredOptics(i)',
    ],
    ['panes', packedPanes, PANE, 'lightTexels', panesAt!, 2, panes.length, 'paneAt(i)'],
    ['lamps', packedLamps, EMITTER, 'lightTexels', lampsAt!, 7, tracer.emitters.length, 'emitterAt(i)'],
    ['boxes of haze', packedHaze, HAZE_REGION, 'lightTexels', hazeRegionsAt!, 5, 2, 'hazeRegionAt(i)'],
  ] as const)('%s', async (_, chunk, of, sampler, at, stride, count, call) => {
    expect(await readOnCard(chunk, of, count, call)).toEqual(each(of, sampler, at, stride, count));
  });

  it('lamp light on surfaces, colours of lamps, entries of curves, openings, haze and sky', async () => {
    const S = surfaces.length;
    const { values } = await glsl.evaluate({
      chunks: [packedLamps, packedGeometry, packedHaze, packedSurfaces, packedPanes],
      body: `
        int i = int(given(0));
        give(0, lampOnSurface(i / ${S}, i % ${S}));
        give(3, lampRgb(i % ${tracer.emitters.length}));
        give(6, photometryAt(i));
        give(7, albedoNode(i, 3));
        give(8, openingAt(i % ${geometry.openings.length / 4}).xyz);
        give(11, openingAt(i % ${geometry.openings.length / 4}).w);
        Haze haze = theHaze();
        give(12, vec3(haze.extinction_per_m, haze.albedo, haze.anisotropy));
        give(15, haze.everywhere ? 1.0 : 0.0);
        give(16, float(haze.regionCount));
        give(17, skyRadiance);
        give(20, excessNode(i, 2));`,
      given: Float32Array.from({ length: tracer.emitters.length * S }, (_, i) => i),
      givenCount: 1,
      resultCount: 21,
      textures: packed.textures,
      uniforms: packed.uniforms,
    });
    const rounded = (numbers: ArrayLike<number>) => Array.from(numbers, Math.fround);
    const curves = packed.textures.tableTexels!.data;
    const opening = (i: number) => geometry.openings.subarray(4 * i, 4 * i + 4);
    for (let i = 0; i < tracer.emitters.length * S; i++) {
      const lamp = i % tracer.emitters.length;
      expect([...values.subarray(21 * i, 21 * i + 21)]).toEqual([
        ...rounded(tracer.model.lampOnSurface_RGB.subarray(3 * i, 3 * i + 3)),
        ...rounded(tracer.lampRgb.subarray(3 * lamp, 3 * lamp + 3)),
        curves[i],
        curves[i + 3],
        ...rounded(opening(i % (geometry.openings.length / 4))),
        ...rounded([0.02, 0.9, 0.7]),
        0,
        2,
        ...rounded(packed.uniforms.skyRadiance!),
        curves[i + 2],
      ]);
    }
    expect(lampOnSurfaceAt).toBeGreaterThan(lampsAt!);
    expect(openingsAt).toBeGreaterThan(shapesAt!);
  });

  it('counts kinds as they are counted here', async () => {
    const names = ['MATT', 'COATED', 'METAL', 'DISC', 'RECTANGLE', 'OCTAGON', 'LAMBERT', 'BEAM'];
    const types = ['TYPE_A', 'TYPE_B', 'TYPE_C'];
    const { values } = await glsl.evaluate({
      chunks: [packedLamps, packedSurfaces],
      body: [...names, ...types].map((name, k) => `give(${k}, float(${name}));`).join('\n'),
      given: new Float32Array(1),
      givenCount: 1,
      resultCount: 11,
    });
    expect([...values]).toEqual([
      ...['matt', 'coated', 'metal'].map((kind) => SURFACE_KINDS.indexOf(kind as never)),
      ...['disc', 'rectangle', 'octagon'].map((shape) => FACE_SHAPES.indexOf(shape as never)),
      ...['lambert', 'beam', 'A', 'B', 'C'].map((kind) => DISTRIBUTION_KINDS.indexOf(kind as never)),
    ]);
  });
});
