/**
 * Inverse of a symmetric positive definite matrix by its Cholesky factor A = L·Lᵀ. Square, row by row in one array.
 * RangeError where the matrix is not positive definite.
 */
export function inverseOfSymmetric(A: Float64Array, n: number): Float64Array {
  const L = choleskyFactor(A, n);
  const inverse = new Float64Array(n * n);
  const column = new Float64Array(n);
  for (let c = 0; c < n; c++) {
    column.fill(0);
    column[c] = 1;
    const x = solvedByFactor(L, column, n);
    for (let r = 0; r < n; r++) inverse[r * n + c] = x[r]!;
  }
  return inverse;
}

/** x of A·x = b for a symmetric positive definite A. RangeError where it is not. */
export function solveSymmetric(A: Float64Array, b: Float64Array, n: number): Float64Array {
  return solvedByFactor(choleskyFactor(A, n), b, n);
}

function choleskyFactor(A: Float64Array, n: number): Float64Array {
  const L = new Float64Array(n * n);
  for (let r = 0; r < n; r++) {
    for (let c = 0; c <= r; c++) {
      let sum = A[r * n + c]!;
      for (let k = 0; k < c; k++) sum -= L[r * n + k]! * L[c * n + k]!;
      if (r > c) {
        L[r * n + c] = sum / L[c * n + c]!;
      } else {
        if (!(sum > 0)) throw new RangeError(`matrix of ${n} is not positive definite in row ${r}`);
        L[r * n + r] = Math.sqrt(sum);
      }
    }
  }
  return L;
}

function solvedByFactor(L: Float64Array, b: Float64Array, n: number): Float64Array {
  const x = Float64Array.from(b);
  for (let r = 0; r < n; r++) {
    for (let k = 0; k < r; k++) x[r]! -= L[r * n + k]! * x[k]!;
    x[r]! /= L[r * n + r]!;
  }
  for (let r = n - 1; r >= 0; r--) {
    for (let k = r + 1; k < n; k++) x[r]! -= L[k * n + r]! * x[k]!;
    x[r]! /= L[r * n + r]!;
  }
  return x;
}

/** gᵀ·A·g. */
export function quadraticForm(A: Float64Array, g: ArrayLike<number>): number {
  const n = g.length;
  let sum = 0;
  for (let r = 0; r < n; r++) {
    if (g[r] === 0) continue;
    for (let c = 0; c < n; c++) sum += g[r]! * A[r * n + c]! * g[c]!;
  }
  return sum;
}
