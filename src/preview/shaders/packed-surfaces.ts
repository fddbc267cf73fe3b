import { SURFACE_OPTICS, SURFACE_TEXELS } from '../pack/layout.ts';
import { glslReader } from '../pack/struct.ts';
import type { Chunk } from './chunk.ts';
import { directionalAlbedo } from './directional-albedo.ts';
import { packedLight } from './packed-light.ts';
import { surfaceOptics } from './surface-optics.ts';

/** The materials of the scene, read from their texture. */
export const packedSurfaces: Chunk = {
  name: 'packed-surfaces',
  needs: [packedLight, surfaceOptics, directionalAlbedo],
  code: /* glsl */ `
${glslReader(SURFACE_OPTICS, 'readSurfaceOptics', 'lightTexel')}
SurfaceOptics surfaceOptics(int surface) {
  return readSurfaceOptics(sectionAt[SURFACES] + ${SURFACE_TEXELS} * surface);
}

// The same with its roughness raised: for lobes that must not be met by chance.
SurfaceOptics blurredOptics(int surface) {
  return readSurfaceOptics(sectionAt[SURFACES] + ${SURFACE_TEXELS} * surface + ${SURFACE_OPTICS.texelCount});
}

float albedoNode(int table, int j) {
  return tableEntry(table + j);
}
`,
};
