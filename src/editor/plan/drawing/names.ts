import type { Flat } from './projection.ts';

const LONGEST = 26;

export function shortened(name: string): string {
  return name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name;
}

/** Which side of its sign a name stands on; none where there is no room for it. */
export type NameSide = 'right' | 'left' | 'none';

interface Named {
  readonly id: string;
  readonly at_px: Flat;
  readonly name: string;
  /** It is named whatever lies there. */
  readonly always: boolean;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const SIGN_px = 12;
const OFF_px = 18;
const LETTER_px = 7.4;
const HALF_LINE_px = 9;

/** From the left edge of the sheet to its right one. */
export interface Across {
  readonly from_px: number;
  readonly to_px: number;
}

/**
 * Sides for the names of signs among all signs, so that no name lies over a sign or over another name, nor beyond the edge of
 * the sheet; those that must be named first.
 */
export function nameSides(
  named: readonly Named[],
  signs_px: readonly Flat[],
  { from_px, to_px }: Across = { from_px: Number.NEGATIVE_INFINITY, to_px: Number.POSITIVE_INFINITY },
): ReadonlyMap<string, NameSide> {
  const taken: Box[] = signs_px.map(([x, y]) => ({
    left: x - SIGN_px,
    right: x + SIGN_px,
    top: y - SIGN_px,
    bottom: y + SIGN_px,
  }));
  const sides = new Map<string, NameSide>();
  const order = [...named].sort((a, b) => Number(b.always) - Number(a.always));
  for (const { id, at_px, name, always } of order) {
    const [x, y] = at_px;
    const width = shortened(name).length * LETTER_px;
    const box = (left: number): Box => ({
      left,
      right: left + width,
      top: y - HALF_LINE_px,
      bottom: y + HALF_LINE_px,
    });
    const right = box(x + OFF_px);
    const left = box(x - OFF_px - width);
    const seen = (one: Box) => one.left >= from_px && one.right <= to_px;
    const free = (one: Box) => seen(one) && !taken.some((other) => overlap(one, other));
    const inAnyCase = seen(right) || !seen(left) ? 'right' : 'left';
    const side: NameSide = free(right) ? 'right' : free(left) ? 'left' : always ? inAnyCase : 'none';
    sides.set(id, side);
    if (side !== 'none') taken.push(side === 'right' ? right : left);
  }
  return sides;
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
