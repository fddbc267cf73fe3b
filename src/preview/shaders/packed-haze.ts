import { HAZE_REGION } from '../pack/layout.ts';
import { glslReader } from '../pack/struct.ts';
import type { Chunk } from './chunk.ts';
import { hazeRegion } from './haze-region.ts';
import { packedLight } from './packed-light.ts';
import { hazeTransmittance } from './transmittance.ts';

/** The haze and the sky of the scene. */
export const packedHaze: Chunk = {
  name: 'packed-haze',
  needs: [packedLight, hazeRegion, hazeTransmittance],
  code: /* glsl */ `
// Extinction per metre (0: no haze), albedo, anisotropy.
uniform vec3 hazeNumbers;
uniform bool hazeEverywhere;
// Linear RGB, cd/m², of the upper half of the world.
uniform vec3 skyRadiance;

${glslReader(HAZE_REGION, 'readHazeRegion', 'lightTexel')}
HazeRegion hazeRegionAt(int i) {
  return readHazeRegion(sectionAt[HAZE_REGIONS] + ${HAZE_REGION.texelCount} * i);
}

Haze theHaze() {
  return Haze(hazeNumbers.x, hazeNumbers.y, hazeNumbers.z, hazeEverywhere, sectionCount[HAZE_REGIONS]);
}
`,
};
