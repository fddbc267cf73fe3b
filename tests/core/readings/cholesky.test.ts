import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inverseOfSymmetric, quadraticForm, solveSymmetric } from '../../../src/core/readings/cholesky.ts';

const numbers = (n: number) =>
  fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: n, maxLength: n });

describe('symmetric positive definite matrices', () => {
  it('solve and invert what they were made from (200 seeded)', () => {
    const made = fc
      .integer({ min: 1, max: 6 })
      .chain((n) => fc.tuple(fc.constant(n), numbers(n * n), numbers(n)));
    fc.assert(
      fc.property(made, ([n, b, x]) => {
        // B·Bᵀ + I is positive definite.
        const A = new Float64Array(n * n);
        for (let r = 0; r < n; r++)
          for (let c = 0; c < n; c++) {
            A[r * n + c] = r === c ? 1 : 0;
            for (let k = 0; k < n; k++) A[r * n + c]! += b[r * n + k]! * b[c * n + k]!;
          }
        const y = Float64Array.from({ length: n }, (_, r) =>
          x.reduce((sum, v, c) => sum + A[r * n + c]! * v, 0),
        );
        const solved = solveSymmetric(A, y, n);
        for (let i = 0; i < n; i++) expect(solved[i]).toBeCloseTo(x[i]!, 9);
        const inverse = inverseOfSymmetric(A, n);
        for (let r = 0; r < n; r++)
          for (let c = 0; c < n; c++) {
            let sum = 0;
            for (let k = 0; k < n; k++) sum += A[r * n + k]! * inverse[k * n + c]!;
            expect(sum).toBeCloseTo(r === c ? 1 : 0, 9);
          }
        const xAx = x.reduce((sum, v, r) => sum + v * y[r]!, 0);
        expect(quadraticForm(A, x)).toBeCloseTo(xAx, 9);
      }),
      { seed: 15, numRuns: 200 },
    );
  });

  it('that are not positive definite are refused', () => {
    expect(() => inverseOfSymmetric(Float64Array.of(1, 2, 2, 1), 2)).toThrow(
      'not positive definite in row 1',
    );
    expect(() => solveSymmetric(Float64Array.of(0), Float64Array.of(1), 1)).toThrow('not positive definite');
  });
});
