import type { Place } from './number-token.ts';
import { closedCircle, mirrored, type PhotometricPlane } from './photometric-plane.ts';
import { refuse } from './photometry-error.ts';

/** 0 none, 1 about the axis, 2 to plane C 0–C 180, 3 to plane C 90–C 270, 4 to both. */
export type Symmetry = 0 | 1 | 2 | 3 | 4;

/**
 * How many of the planes the file stores: Mc, 1, Mc/2+1, Mc/2+1 or Mc/4+1 (Stockmar).
 * @throws PhotometryError BAD_COUNT
 */
export function storedPlanes(symmetry: Symmetry, planeCount: number, file: string, line: number): number {
  const divisor = ([1, 1, 2, 2, 4] as const)[symmetry];
  if (planeCount % divisor !== 0 || (symmetry === 0 && planeCount === 1)) {
    refuse(
      { file, line },
      'BAD_COUNT',
      `${planeCount} C-planes with symmetry ${symmetry}`,
      symmetry === 0 ? '2 planes or more' : `a number of planes that divides by ${divisor}`,
      'Correct the number of C-planes on line 4 or the symmetry on line 3.',
    );
  }
  if (symmetry === 0) return planeCount;
  return symmetry === 1 ? 1 : planeCount / divisor + 1;
}

/**
 * The angles of the stored planes, increasing. The file lists the angles of all planes; with symmetry 3 the stored
 * ones begin at C 270 and run through C 0 to C 90, written here as −90 to 90.
 * @throws PhotometryError BAD_HORIZONTAL_RANGE
 */
export function storedAngles_deg(
  symmetry: Symmetry,
  c_deg: Float64Array,
  stored: number,
  place: Place,
): number[] {
  if (symmetry === 1) return [0];
  const first = symmetry === 3 ? c_deg.indexOf(270) : 0;
  const angles = Array.from({ length: stored }, (_, i) => {
    const angle = c_deg[(first + i) % c_deg.length] ?? Number.NaN;
    return symmetry === 3 && angle >= 180 ? angle - 360 : angle;
  });
  const [from, to] = symmetry === 3 ? [-90, 90] : [0, { 0: null, 2: 180, 4: 90 }[symmetry]];
  const withinTurn = c_deg[0]! >= 0 && c_deg[c_deg.length - 1]! <= 360;
  if (!withinTurn || angles[0] !== from || (to !== null && angles[stored - 1] !== to)) {
    const wanted = symmetry === 3 ? '270 through 0 to 90' : `0 to ${to ?? 'at most 360'}`;
    refuse(
      place,
      'BAD_HORIZONTAL_RANGE',
      `C angles ${c_deg[0]} to ${c_deg[c_deg.length - 1]}`,
      `C angles that hold ${wanted} for symmetry ${symmetry}`,
      'Correct the C angles or the symmetry on line 3.',
    );
  }
  return angles;
}

/** The planes of the whole turn. */
export function unfolded(
  symmetry: Symmetry,
  measured: readonly PhotometricPlane[],
): readonly PhotometricPlane[] {
  switch (symmetry) {
    case 0:
      return closedCircle(measured);
    case 1:
      return measured;
    case 2:
      return closedCircle(mirrored(measured, 180));
    case 3:
      return closedCircle(mirrored(measured, 90));
    case 4:
      return closedCircle(mirrored(mirrored(measured, 90), 180));
  }
}

/**
 * Warns of angles that leave part of a hemisphere out, which counts as dark.
 * @throws PhotometryError BAD_VERTICAL_RANGE
 */
export function checkGammaRange(gamma_deg: Float64Array, place: Place, warnings: string[]): void {
  const [first, last] = [gamma_deg[0]!, gamma_deg[gamma_deg.length - 1]!];
  if (first < 0 || last > 180) {
    refuse(
      place,
      'BAD_VERTICAL_RANGE',
      `gamma angles ${first} to ${last}`,
      'angles within 0 to 180',
      'Correct the gamma angles, or look for a missing or surplus value before them.',
    );
  }
  if ((first !== 0 && first !== 90) || (last !== 90 && last !== 180)) {
    warnings.push(
      `line ${place.line}: gamma angles ${first} to ${last}; every direction outside them is dark`,
    );
  }
}
