import { PANE } from '../pack/layout.ts';
import { glslReader, glslStruct } from '../pack/struct.ts';
import type { Chunk } from './chunk.ts';
import { packedLight } from './packed-light.ts';
import { paneLobe } from './pane-lobe.ts';

/** The panes of the scene, read from their texture. */
export const packedPanes: Chunk = {
  name: 'packed-panes',
  needs: [packedLight, paneLobe],
  code: /* glsl */ `
${glslStruct(PANE)}
${glslReader(PANE, 'readPane', 'lightTexel')}
Pane paneAt(int pane) {
  return readPane(sectionAt[PANES] + ${PANE.texelCount} * pane);
}

// Share of light that goes straight on, and share that is scattered.
float paneDirectOf(int pane) {
  return paneAt(pane).direct;
}

float paneScattered(int pane) {
  return paneAt(pane).scattered;
}

PaneLobe paneLobeOf(int pane) {
  return paneAt(pane).lobe;
}

float excessNode(int table, int k) {
  return tableEntry(table + k);
}
`,
};
