import type { Features } from '../shaders/features.ts';
import type { LightKind } from '../shaders/light-kinds.ts';

/** A kind of light that has a pass of its own. */
export interface LightPart {
  readonly kind: LightKind;
  readonly every: number;
  readonly deeperEvery: number;
}

/**
 * The kinds of light that a scene has, each with a pass of its own at every turn of the paths (wave-state.ts).
 *
 * What is rare or even need not be asked as often as the rest: a kind may be asked for at one block of pixels in `every`, which
 * block it is changing from sample to sample, and then stands for that many; beyond what a camera or a meter sees itself at
 * one in `deeperEvery` of these only. In the demo scene, with every kind as often as the others, the light through panes and
 * the glow of haze cost a quarter of the time and made a fiftieth of the variance; mirrored light asked once in four times
 * deeper down was no noisier for it, but at one block in two it was the noisiest part of all. The mean stays as it is, for all
 * blocks have the same chance.
 */
export function lightParts({ mirrors, sheets, haze }: Features): readonly LightPart[] {
  return [
    { kind: 'lamps', every: 1, deeperEvery: 1 },
    ...(haze ? [{ kind: 'airlight', every: 1, deeperEvery: 1 } as const] : []),
    ...(mirrors ? [{ kind: 'mirrored', every: 1, deeperEvery: 4 } as const] : []),
    ...(sheets ? [{ kind: 'scattered', every: 8, deeperEvery: 2 } as const] : []),
    ...(haze ? [{ kind: 'glowing', every: 8, deeperEvery: 2 } as const] : []),
  ];
}
