import type { PlacedNeedle } from './rule-layout.ts';

/**
 * Which mark a key leads to: left and right along the ruler, up and down as the marks are listed, Home and End to the ends of
 * the ruler. Undefined for any other key.
 */
export function neighbourOf(
  needles: readonly PlacedNeedle[],
  from: string | undefined,
  key: string,
): string | undefined {
  const along = needles.toSorted((a, b) => a.x_px - b.x_px || a.number - b.number);
  const step = (list: readonly PlacedNeedle[], by: number) => {
    const at = list.findIndex(({ mixed }) => mixed.mark.id === from);
    return list[Math.min(list.length - 1, Math.max(0, at + by))]?.mixed.mark.id;
  };
  switch (key) {
    case 'ArrowRight':
      return step(along, 1);
    case 'ArrowLeft':
      return step(along, -1);
    case 'ArrowDown':
      return step(needles, 1);
    case 'ArrowUp':
      return step(needles, -1);
    case 'Home':
      return along[0]?.mixed.mark.id;
    case 'End':
      return along.at(-1)?.mixed.mark.id;
    default:
      return undefined;
  }
}
