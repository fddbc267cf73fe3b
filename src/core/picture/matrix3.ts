import { cross, dot, scale, type Vec3 } from '../math/vec3.ts';

/** A 3 × 3 matrix by rows. */
export type Matrix3 = readonly [Vec3, Vec3, Vec3];

/** M·v. */
export function times(M: Matrix3, v: Vec3): Vec3 {
  return [dot(M[0], v), dot(M[1], v), dot(M[2], v)];
}

/** A·B: first B, then A. */
export function product(A: Matrix3, B: Matrix3): Matrix3 {
  const [p, q, r] = transposed(B);
  return transposed([times(A, p), times(A, q), times(A, r)]);
}

/** The matrix that scales the three axes by v. */
export function diagonal(v: Vec3): Matrix3 {
  return [
    [v[0], 0, 0],
    [0, v[1], 0],
    [0, 0, v[2]],
  ];
}

/** M⁻¹ by cross products of the rows. RangeError when M has none. */
export function inverse(M: Matrix3): Matrix3 {
  const p = cross(M[1], M[2]);
  const determinant = dot(M[0], p);
  if (!Number.isFinite(1 / determinant)) {
    throw new RangeError(
      `a matrix of determinant ${determinant} has no inverse; its rows must be independent`,
    );
  }
  const q = cross(M[2], M[0]);
  const r = cross(M[0], M[1]);
  return transposed([scale(p, 1 / determinant), scale(q, 1 / determinant), scale(r, 1 / determinant)]);
}

export function transposed(M: Matrix3): Matrix3 {
  return [
    [M[0][0], M[1][0], M[2][0]],
    [M[0][1], M[1][1], M[2][1]],
    [M[0][2], M[1][2], M[2][2]],
  ];
}
