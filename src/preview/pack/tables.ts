import { checkInt } from './struct.ts';
import { newTexels, type Texels } from './texels.ts';

/** Curves laid one behind the other, each once however many things use it. */
export interface Tables {
  /** The first entry of curves that stand together: where they stand already, if the first of them was placed before. */
  place(...curves: readonly ArrayLike<number>[]): number;
  texels(): Texels;
}

export function newTables(): Tables {
  const placed: ArrayLike<number>[] = [];
  const starts = new Map<ArrayLike<number>, number>();
  let length = 0;
  return {
    place: (...curves) => {
      const known = starts.get(curves[0]!);
      if (known !== undefined) return known;
      const start = checkInt(length, 'The place of a table');
      starts.set(curves[0]!, start);
      for (const curve of curves) {
        placed.push(curve);
        length += curve.length;
      }
      return start;
    },
    texels: () => {
      const texels = newTexels(Math.ceil(length / 4));
      let at = 0;
      for (const curve of placed) {
        texels.data.set(curve, at);
        at += curve.length;
      }
      return texels;
    },
  };
}
