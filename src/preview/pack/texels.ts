/** Numbers as a texture holds them: `width` × `height` texels of four floats, row after row. */
export interface Texels {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

/** Texels in a row of every data texture: WebGL2 promises no more than 2048, and every address is cut by shifts. */
export const ROW_BITS = 11;
export const ROW_TEXELS = 1 << ROW_BITS;

/** Zeroes enough for `count` texels, in full rows. */
export function newTexels(count: number): Texels {
  const height = Math.max(1, Math.ceil(count / ROW_TEXELS));
  return { width: ROW_TEXELS, height, data: new Float32Array(ROW_TEXELS * height * 4) };
}

/** The earlier of two, the very object, where they hold the same: what has it already need not take it again. */
export function earlierIfSame(before: Texels | undefined, now: Texels): Texels {
  if (!before || before.data.length !== now.data.length) return now;
  for (let i = 0; i < now.data.length; i++) if (before.data[i] !== now.data[i]) return now;
  return before;
}
