import { EMITTER, LAMP_TEXELS } from '../pack/layout.ts';
import { glslReader, glslStruct } from '../pack/struct.ts';
import type { Chunk } from './chunk.ts';
import { face } from './face.ts';
import { intensity } from './intensity.ts';
import { packedLight } from './packed-light.ts';

/** The lamps of the scene, read from their texture. */
export const packedLamps: Chunk = {
  name: 'packed-lamps',
  needs: [packedLight, face, intensity],
  code: /* glsl */ `
${glslStruct(EMITTER)}
${glslReader(EMITTER, 'readEmitter', 'lightTexel')}
Emitter emitterAt(int lamp) {
  return readEmitter(sectionAt[LAMPS] + ${LAMP_TEXELS} * lamp);
}

// Linear RGB of a lamp's light at luminance 1.
vec3 lampRgb(int lamp) {
  return lightTexel(sectionAt[LAMPS] + ${LAMP_TEXELS} * lamp + ${EMITTER.texelCount}).rgb;
}

// Linear RGB of a lamp's light off the diffuse base of a surface, for lamp light of luminance 1.
vec3 lampOnSurface(int lamp, int surface) {
  return lightTexel(sectionAt[LAMP_ON_SURFACE] + lamp * sectionCount[SURFACES] + surface).rgb;
}

float photometryAt(int i) {
  return tableEntry(i);
}
`,
};
