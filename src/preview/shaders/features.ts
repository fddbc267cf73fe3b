import type { Chunk } from './chunk.ts';

/** What there is in a scene. Code for what there is not is left out: it would cost build time, and software runs it masked. */
export interface Features {
  readonly haze: boolean;
  /** Haze that fills boxes, not everything. */
  readonly hazeBoxes: boolean;
  /** Flat glossy faces that throw lamp light. */
  readonly mirrors: boolean;
  /** Panes that scatter. */
  readonly sheets: boolean;
  /** Lamps whose candela stand in a table of measured angles. */
  readonly tables: boolean;
}

/** Must stand before every chunk that asks. */
export function featuresChunk({ haze, hazeBoxes, mirrors, sheets, tables }: Features): Chunk {
  return {
    name: 'features',
    needs: [],
    code: `
#define HAS_HAZE ${Number(haze)}
#define HAS_HAZE_BOXES ${Number(hazeBoxes)}
#define HAS_MIRRORS ${Number(mirrors)}
#define HAS_SHEETS ${Number(sheets)}
#define HAS_TABLES ${Number(tables)}
`,
  };
}

/** Everything, for a chunk that stands alone: what `featuresChunk` has said before stays. */
export const everyFeature: Chunk = {
  name: 'every-feature',
  needs: [],
  code: ['HAZE', 'HAZE_BOXES', 'MIRRORS', 'SHEETS', 'TABLES']
    .map((feature) => `#ifndef HAS_${feature}\n#define HAS_${feature} 1\n#endif\n`)
    .join(''),
};
