import { ARC, BOX, CAPSULE, CYLINDER, PANEL, SPHERE, TRIANGLE } from '../../core/geometry/shape-record.ts';
import { BELONGING, BODY, KINDS, LEAF_SHAPES, NODE, SHAPE_TEXELS } from '../pack/layout.ts';
import { glslReader, glslStruct } from '../pack/struct.ts';
import type { Chunk } from './chunk.ts';
import { sections } from './sections.ts';

const KIND_CONSTANTS = { BOX, CYLINDER, SPHERE, CAPSULE, PANEL, ARC, TRIANGLE };

/** The bodies of the scene, read from their texture (pack/layout.ts). A shape is named by its place in the leaves. */
export const packedGeometry: Chunk = {
  name: 'packed-geometry',
  needs: [sections],
  code: /* glsl */ `
uniform sampler2D geometryTexels;

vec4 geometryTexel(int i) {
  return texelFetch(geometryTexels, texelPlace(i), 0);
}

${Object.entries(KIND_CONSTANTS)
  .map(([name, code]) => `const int ${name} = ${code};`)
  .join('\n')}

${glslStruct(NODE)}
${glslStruct(BODY)}
${glslStruct(BELONGING)}
${glslReader(NODE, 'readNode', 'geometryTexel')}
${glslReader(BODY, 'readBody', 'geometryTexel')}
${glslReader(BELONGING, 'readBelonging', 'geometryTexel')}
Node nodeAt(int i) {
  return readNode(sectionAt[NODES] + ${NODE.texelCount} * i);
}

int firstShapeOf(Node node) {
  return node.leaf / ${LEAF_SHAPES};
}

int shapeCountOf(Node node) {
  return node.leaf % ${LEAF_SHAPES};
}

Body bodyAt(int place) {
  return readBody(sectionAt[SHAPES] + ${SHAPE_TEXELS} * place);
}

Belonging belongingAt(int place) {
  return readBelonging(sectionAt[SHAPES] + ${SHAPE_TEXELS} * place + ${BODY.texelCount});
}

int kindOf(Body body) {
  return body.kind % ${KINDS};
}

int openingCountOf(Body body) {
  return body.kind / ${KINDS};
}

// Left, bottom, right, top.
vec4 openingAt(int i) {
  return geometryTexel(sectionAt[OPENINGS] + i);
}
`,
};
