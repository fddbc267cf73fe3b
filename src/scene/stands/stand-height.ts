import type { Lamp } from '../schema/lamp.ts';

/** How high a lamp is over its ground, and whether its stand reaches so far. */
export interface StandHeight {
  /** Of the lamp's centre above its ground. */
  readonly height_m: number;
  readonly maxHeight_m: number | null;
  readonly tooHigh: boolean;
}

export function standHeight({ position_m, stand }: Lamp, ground_m: number): StandHeight {
  const height_m = position_m[1] - ground_m;
  const maxHeight_m = stand?.maxHeight_m ?? null;
  return { height_m, maxHeight_m, tooHigh: maxHeight_m !== null && height_m > maxHeight_m + 1e-9 };
}
