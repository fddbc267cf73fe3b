import type { Chunk } from './chunk.ts';

/**
 * Kinds of light by its last way to a vertex of a path: from a lamp, the sky or lit haze on the path itself; by a flat glossy
 * face; through a pane that scatters; by haze beside the path. A program asks for all of them (vertex-light.ts) or for one
 * (vertex-part.ts); then several make a sample: each follows paths of its own and is far smaller.
 */
export const LIGHT_KINDS = ['straight', 'mirrored', 'scattered', 'glowing'] as const;

export type LightKind = (typeof LIGHT_KINDS)[number];

/** Must stand before every chunk that asks. */
export function lightKindsChunk(kinds: readonly LightKind[]): Chunk {
  return {
    name: 'light-kinds',
    needs: [],
    code: [
      ...LIGHT_KINDS.map((kind) => `${macroOf(kind)} ${Number(kinds.includes(kind))}`),
      `ASKS_ONE_KIND ${Number(kinds.length === 1)}`,
    ]
      .map((macro) => `#define ${macro}\n`)
      .join(''),
  };
}

/** All of them, for a chunk that stands alone: what `lightKindsChunk` has said before stays. */
export const everyLightKind: Chunk = {
  name: 'every-light-kind',
  needs: [],
  code: [...LIGHT_KINDS.map((kind) => `${macroOf(kind)} 1`), 'ASKS_ONE_KIND 0']
    .map((macro) => `#ifndef ${macro.split(' ')[0]}\n#define ${macro}\n#endif\n`)
    .join(''),
};

function macroOf(kind: LightKind): string {
  return `ASKS_${kind.toUpperCase()}`;
}
