import type { Chunk } from './chunk.ts';

/** What there is in a scene. Code for what there is not is left out: it would cost build time, and software runs it masked. */
export interface Features {
  readonly haze: boolean;
  /** Flat glossy faces that throw lamp light. */
  readonly mirrors: boolean;
  /** Panes that scatter. */
  readonly sheets: boolean;
}

/** Must stand before every chunk that asks. */
export function featuresChunk({ haze, mirrors, sheets }: Features): Chunk {
  return {
    name: 'features',
    needs: [],
    code: `
#define HAS_HAZE ${Number(haze)}
#define HAS_MIRRORS ${Number(mirrors)}
#define HAS_SHEETS ${Number(sheets)}
`,
  };
}
