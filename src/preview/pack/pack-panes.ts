import type { Pane } from '../../core/light-model/light-model.ts';
import type { PaneLobe } from '../../core/surfaces/pane-lobe.ts';
import { PANE } from './layout.ts';
import { writeStruct } from './struct.ts';
import type { Tables } from './tables.ts';

/** Writes every pane from a texel on; `lobes` has null for one that does not scatter. */
export function packPanes(
  panes: readonly Pane[],
  lobes: readonly (PaneLobe | null)[],
  tables: Tables,
  data: Float32Array,
  at: number,
): void {
  panes.forEach(({ direct, scattered }, i) => {
    const lobe = lobes[i];
    const values = {
      direct,
      scattered,
      lobe: {
        exponent: lobe?.exponent ?? 0,
        normalisation: lobe?.normalisation ?? 0,
        excess: lobe ? tables.place(lobe.excess) : 0,
      },
    };
    writeStruct(PANE, values, data, at + PANE.texelCount * i);
  });
}
