import { ALBEDO_NODES } from '../../core/surfaces/directional-albedo.ts';
import type { Chunk } from './chunk.ts';

/** E of a coat, from its table of ALBEDO_NODES numbers. */
export const directionalAlbedo: Chunk = {
  name: 'directional-albedo',
  needs: [],
  code: /* glsl */ `
// E at node j of a table. Defined where the light model is read.
float albedoNode(int table, int j);

const int ALBEDO_LAST = ${ALBEDO_NODES - 1};

float albedoNodeCosine(int j) {
  float x = float(j) / float(ALBEDO_LAST);
  return x * x * x * x;
}

// E at a direction of the table, 0 ≤ cosTheta ≤ 1.
float albedoAt(int table, float cosTheta) {
  int j = min(ALBEDO_LAST - 1, int(floor(float(ALBEDO_LAST) * sqrt(sqrt(cosTheta)))));
  float from = albedoNodeCosine(j);
  float s = (cosTheta - from) / (albedoNodeCosine(j + 1) - from);
  return mix(albedoNode(table, j), albedoNode(table, j + 1), s);
}
`,
};
