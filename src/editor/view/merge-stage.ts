import { BufferGeometry, Float32BufferAttribute } from 'three';
import type { Part, Shape, Substance } from '../../core/geometry/shape.ts';
import type { StageParts } from '../worker/reading-desk.ts';
import { edgesOf, shapeGeometry, trianglesGeometry } from './shape-geometry.ts';

/** All parts of one substance as one mesh: a scene of thousands of solids is drawn in a handful of calls. */
export interface MergedPart {
  readonly substance: Substance;
  readonly surface: BufferGeometry;
}

export interface MergedStage {
  readonly merged: readonly MergedPart[];
  readonly edges: BufferGeometry;
}

export function mergeStage({ parts }: StageParts): MergedStage {
  const bySubstance = new Map<string, Part[]>();
  for (const part of parts) {
    const key = `${part.substance.kind} ${part.substance.index}`;
    const group = bySubstance.get(key);
    if (group) group.push(part);
    else bySubstance.set(key, [part]);
  }
  const edges: Float32Array[] = [];
  const merged = [...bySubstance.values()].map((group) => {
    const surfaces: BufferGeometry[] = [];
    const triangles: Extract<Shape, { kind: 'triangle' }>[] = [];
    for (const { shape } of group) {
      if (shape.kind === 'triangle') {
        triangles.push(shape);
        continue;
      }
      const surface = shapeGeometry(shape);
      surfaces.push(surface);
      edges.push(edgesOf(surface));
    }
    if (triangles.length > 0) surfaces.push(trianglesGeometry(triangles));
    return { substance: group[0]!.substance, surface: joined(surfaces) };
  });
  const lines = new BufferGeometry();
  lines.setAttribute('position', new Float32BufferAttribute(concatenated(edges), 3));
  return { merged, edges: lines };
}

function joined(geometries: readonly BufferGeometry[]): BufferGeometry {
  const whole = new BufferGeometry();
  for (const name of ['position', 'normal'] as const) {
    const arrays = geometries.map((geometry) => geometry.getAttribute(name).array as Float32Array);
    whole.setAttribute(name, new Float32BufferAttribute(concatenated(arrays), 3));
  }
  for (const geometry of geometries) geometry.dispose();
  return whole;
}

function concatenated(arrays: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(arrays.reduce((sum, array) => sum + array.length, 0));
  let at = 0;
  for (const array of arrays) {
    whole.set(array, at);
    at += array.length;
  }
  return whole;
}
