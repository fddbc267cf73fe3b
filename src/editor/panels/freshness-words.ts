import type { Freshness } from '../store/shown-scene.ts';

/** What is said beside numbers that are not the last word. */
export const FRESHNESS_WORDS: Readonly<Record<Freshness, string>> = {
  stale: 'metering…',
  moving: 'straight light only while it moves',
  straight: 'straight light, the rest follows…',
  settling: 'settling…',
  fresh: '',
};
