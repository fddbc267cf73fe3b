import type { Part } from './mixed-reading.ts';

/** One piece of a needle, from its foot up. */
export interface Piece {
  /** Null: all that is too small to be drawn by itself. */
  readonly of: Part['of'] | null;
  readonly from_px: number;
  readonly to_px: number;
}

/** A thinner piece could not be seen. */
const LEAST_px = 2;

/**
 * A needle stands at the stops of the whole reading, which is a logarithm; along the ruler parts of it have no length that
 * adds up. Its height is linear: each piece is as high as its share of the lux, from the foot up in the order of the parts.
 * What is too small to be seen is one piece at the top.
 */
export function stackOf(parts: readonly Part[], height_px: number): Piece[] {
  const pieces: Piece[] = [];
  let top_px = 0;
  for (const { of, share } of parts) {
    const part_px = share * height_px;
    if (part_px < LEAST_px) continue;
    pieces.push({ of, from_px: top_px, to_px: top_px + part_px });
    top_px += part_px;
  }
  if (parts.length > 0 && height_px - top_px > 0.5)
    pieces.push({ of: null, from_px: top_px, to_px: height_px });
  return pieces;
}
