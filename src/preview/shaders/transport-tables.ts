import { glslReader, glslStruct } from '../pack/struct.ts';
import {
  LIT_CONE,
  LIT_LAMP,
  MIRROR_FACE,
  MIRROR_PAIR,
  PAIR_RANGE,
  PANE_SHEET,
} from '../renderer/transport-tables.ts';
import type { Chunk } from './chunk.ts';

const LISTS = [LIT_LAMP, MIRROR_FACE, MIRROR_PAIR, PAIR_RANGE, PANE_SHEET];

/** "MirrorFace" has its list at mirrorFacesAt and is read by readMirrorFace (a texel) and mirrorFaceAt (a place). */
function listOf(name: string, texelCount: number): string {
  const small = name[0]!.toLowerCase() + name.slice(1);
  return `uniform ivec2 ${small}sAt;\n${name} ${small}At(int i) {\n  return read${name}(${small}sAt.y + ${texelCount} * i);\n}\n`;
}

/** What the core's tracer works out once for a model, read from a texture: see renderer/transport-tables.ts. */
export const transportTables: Chunk = {
  name: 'transport-tables',
  needs: [],
  code: /* glsl */ `
uniform sampler2D transportTexels;

vec4 transportTexel(int i) {
  return texelFetch(transportTexels, ivec2(i & 2047, i >> 11), 0);
}

${glslStruct(LIT_CONE)}
${LISTS.map((of) => glslStruct(of) + glslReader(of, `read${of.name}`, 'transportTexel') + listOf(of.name, of.texelCount)).join('\n')}
vec3 inAxesOfFace(MirrorFace face, vec3 p) {
  vec3 a = p - face.centre;
  return vec3(dot(a, face.u), dot(a, face.v), dot(a, face.n));
}

// The pairs of a part's faces.
PairRange mirrorsOf(int part) {
  if (part >= pairRangesAt.x) return PairRange(0, 0);
  return pairRangeAt(part);
}
`,
};
