import type { Features } from '../shaders/features.ts';
import type { AskedLight } from '../shaders/frame.ts';
import { LIGHT_KINDS } from '../shaders/light-kinds.ts';

/**
 * The parts of a sample, each drawn by a program of its own; the first counts it, the others add to it.
 *
 * What is rare or even need not be asked as often as the rest: a part may be drawn for one block of pixels in `every`, which
 * block it is changing from sample to sample, and then stands for that many; likewise its paths may go on beyond what a camera
 * or a meter sees itself once in `deeperEvery` only. In the demo scene, with every part as often as the others, the light
 * through panes and the glow of haze cost a quarter of the time and made a fiftieth of the variance; mirrored light asked once
 * in four times deeper down was no noisier for it, but drawn for one block in two it was the noisiest part of all. The mean stays
 * as it is, for all blocks have the same chance.
 */
export function lightParts({ mirrors, sheets, haze }: Features, apart: boolean): readonly AskedLight[] {
  if (!apart) return [{ kinds: LIGHT_KINDS, every: 1, deeperEvery: 1 }];
  return [
    { kinds: ['straight'], every: 1, deeperEvery: 1 },
    ...(mirrors ? [{ kinds: ['mirrored'], every: 1, deeperEvery: 4 } as const] : []),
    ...(sheets ? [{ kinds: ['scattered'], every: 4, deeperEvery: 2 } as const] : []),
    ...(haze ? [{ kinds: ['glowing'], every: 4, deeperEvery: 2 } as const] : []),
  ];
}
