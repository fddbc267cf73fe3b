import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  diagonal,
  inverse,
  type Matrix3,
  product,
  times,
  transposed,
} from '../../../src/core/picture/matrix3.ts';

const M: Matrix3 = [
  [2, 0, 1],
  [1, 3, -1],
  [0, 5, 4],
];

describe('a 3 × 3 matrix', () => {
  it('multiplies a column, rows first', () => {
    // derived: by hand
    expect(times(M, [1, 2, 3])).toEqual([5, 4, 22]);
    expect(times(diagonal([2, 3, 4]), [1, 2, 3])).toEqual([2, 6, 12]);
    expect(transposed(M)).toEqual([
      [2, 1, 0],
      [0, 3, 5],
      [1, -1, 4],
    ]);
  });

  it('as a product first does the right, then the left', () => {
    const number = fc.double({ min: -10, max: 10, noNaN: true });
    const vector = fc.tuple(number, number, number);
    const matrix = fc.tuple(vector, vector, vector);
    fc.assert(
      fc.property(matrix, matrix, vector, (A, B, v) => {
        const once = times(product(A, B), v);
        for (const [i, expected] of times(A, times(B, v)).entries()) expect(once[i]).toBeCloseTo(expected, 9);
      }),
      { seed: 33, numRuns: 50 },
    );
  });

  it('times its inverse is nothing done', () => {
    // derived: det = 2·(12 + 5) + 1·5 = 39
    const back = inverse(M);
    expect(back[0][0]).toBeCloseTo(17 / 39, 14);
    for (const [i, row] of product(M, back).entries()) {
      for (const [j, value] of row.entries()) expect(value).toBeCloseTo(i === j ? 1 : 0, 14);
    }
  });

  it('without an inverse says so', () => {
    expect(() => inverse([M[0], M[0], M[2]])).toThrow('determinant 0 has no inverse');
  });
});
