/** The emitting face of a lamp, in its own plane: r to the right, t to the top. */
export type Face =
  | { readonly shape: 'disc'; readonly radius_m: number }
  | { readonly shape: 'rectangle'; readonly halfSize_m: readonly [number, number] }
  /** Regular, with flats at the right and the top; the apothem is half the width across the flats. */
  | { readonly shape: 'octagon'; readonly apothem_m: number };

const TAN_22_5 = Math.SQRT2 - 1;

export function faceArea_m2(face: Face): number {
  switch (face.shape) {
    case 'disc':
      return Math.PI * face.radius_m ** 2;
    case 'rectangle':
      return 4 * face.halfSize_m[0] * face.halfSize_m[1];
    case 'octagon':
      return 8 * TAN_22_5 * face.apothem_m ** 2;
  }
}

/** The radius of the smallest circle about the centre that holds the face. */
export function faceRadius_m(face: Face): number {
  switch (face.shape) {
    case 'disc':
      return face.radius_m;
    case 'rectangle':
      return Math.hypot(face.halfSize_m[0], face.halfSize_m[1]);
    case 'octagon':
      return face.apothem_m * Math.hypot(1, TAN_22_5);
  }
}

/** A point of a face in metres along r and t. */
export interface FacePoint {
  r_m: number;
  t_m: number;
}

/**
 * Equal areas of the unit square to equal areas of the face, so that even points on the square are even on the face.
 * Disc: Shirley & Chiu's concentric map (1997), which keeps neighbours together. Octagon: one of eight triangles from
 * the centre, chosen by u, with v split evenly over it.
 */
export function placeOnFace(face: Face, u: number, v: number, point: FacePoint): void {
  switch (face.shape) {
    case 'rectangle':
      point.r_m = (2 * u - 1) * face.halfSize_m[0];
      point.t_m = (2 * v - 1) * face.halfSize_m[1];
      return;
    case 'disc': {
      const x = 2 * u - 1;
      const y = 2 * v - 1;
      if (x === 0 && y === 0) {
        point.r_m = 0;
        point.t_m = 0;
        return;
      }
      const wide = Math.abs(x) > Math.abs(y);
      const radius = face.radius_m * (wide ? x : y);
      const angle = wide ? (Math.PI / 4) * (y / x) : Math.PI / 2 - (Math.PI / 4) * (x / y);
      point.r_m = radius * Math.cos(angle);
      point.t_m = radius * Math.sin(angle);
      return;
    }
    case 'octagon': {
      const sector = Math.min(7, Math.floor(8 * u));
      const along = Math.sqrt(8 * u - sector);
      const outward = face.apothem_m * along;
      const across = outward * TAN_22_5 * (2 * v - 1);
      const angle = (Math.PI / 4) * sector;
      point.r_m = outward * Math.cos(angle) - across * Math.sin(angle);
      point.t_m = outward * Math.sin(angle) + across * Math.cos(angle);
      return;
    }
  }
}
