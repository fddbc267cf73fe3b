import type { SmallFrame } from './small-frame-desk.ts';

/** Light adds: the frame by the light of all of these together. Undefined for none; all are of one camera and size. */
export function sumOfFrames(frames: readonly SmallFrame[]): SmallFrame | undefined {
  const [first, ...others] = frames;
  if (!first) return undefined;
  const rgb = first.rgb.slice();
  for (const other of others) for (let i = 0; i < rgb.length; i++) rgb[i]! += other.rgb[i]!;
  return { ...first, rgb };
}
