import { SECTIONS } from '../pack/layout.ts';
import { ROW_BITS, ROW_TEXELS } from '../pack/texels.ts';
import type { Chunk } from './chunk.ts';

/** Where the sections of the packed light model begin, and how a texel is addressed. */
export const sections: Chunk = {
  name: 'sections',
  needs: [],
  code: /* glsl */ `
${SECTIONS.map((section, i) => `const int ${constantName(section)} = ${i};`).join('\n')}
uniform int sectionAt[${SECTIONS.length}];
uniform int sectionCount[${SECTIONS.length}];

ivec2 texelPlace(int i) {
  return ivec2(i & ${ROW_TEXELS - 1}, i >> ${ROW_BITS});
}
`,
};

/** lampOnSurface → LAMP_ON_SURFACE. */
function constantName(section: string): string {
  return section.replace(/[A-Z]/g, (letter) => `_${letter}`).toUpperCase();
}
