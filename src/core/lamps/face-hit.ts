import type { Face } from './face.ts';

/** Whether a point of the face's plane, metres along r and t, lies on the face. */
export function onFace(face: Face, r_m: number, t_m: number): boolean {
  switch (face.shape) {
    case 'disc':
      return r_m * r_m + t_m * t_m <= face.radius_m * face.radius_m;
    case 'rectangle':
      return Math.abs(r_m) <= face.halfSize_m[0] && Math.abs(t_m) <= face.halfSize_m[1];
    case 'octagon': {
      const [r, t] = [Math.abs(r_m), Math.abs(t_m)];
      return Math.max(r, t, (r + t) * Math.SQRT1_2) <= face.apothem_m;
    }
  }
}
