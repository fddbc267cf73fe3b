import type { Chunk } from './chunk.ts';

/**
 * Kinds of light by its last way to a vertex of a path: straight from a lamp, and what the path runs into by itself; from a
 * lamp by lit haze on the path; by a flat glossy face; through a pane that scatters; by haze beside the path. A program asks
 * for all of them (vertex-light.ts) or for one (vertex-part.ts), which is far smaller.
 */
export const LIGHT_KINDS = ['lamps', 'airlight', 'mirrored', 'scattered', 'glowing'] as const;

export type LightKind = (typeof LIGHT_KINDS)[number];

/** Must stand before every chunk that asks. */
export function lightKindChunk(kind: LightKind): Chunk {
  return {
    name: 'light-kind',
    needs: [],
    code: [
      '#define ASKS_ONE_KIND 1',
      ...LIGHT_KINDS.map((one) => `#define ${macroOf(one)} ${Number(one === kind)}`),
    ]
      .map((line) => `${line}\n`)
      .join(''),
  };
}

/** All of them, for a program that asks for all and for a chunk that stands alone: what `lightKindChunk` has said stays. */
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
