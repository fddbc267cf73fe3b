import { type Face, type FacePoint, placeOnFace } from '../lamps/face.ts';
import { kroneckerU, kroneckerV } from '../math/kronecker.ts';

/**
 * Points that stand for a lamp's face, metres along r and t: its centre, points that are even over its area, and points of
 * its rim, so that an image of which only the edge is mirrored is not missed.
 */
export interface FacePoints {
  readonly even: readonly FacePoint[];
  readonly rim: readonly FacePoint[];
}

const EVEN = 32;
const ROUND_RIM = 24;
const TAN_22_5 = Math.SQRT2 - 1;

export function facePoints(face: Face): FacePoints {
  const even = Array.from({ length: EVEN }, (_, i) => {
    const point = { r_m: 0, t_m: 0 };
    placeOnFace(face, kroneckerU(i, 0), kroneckerV(i, 0), point);
    return point;
  });
  return { even, rim: rimOf(face) };
}

function rimOf(face: Face): FacePoint[] {
  switch (face.shape) {
    case 'disc':
      return round(ROUND_RIM, face.radius_m, 0);
    case 'octagon':
      return [
        ...round(8, face.apothem_m, 0),
        ...round(8, face.apothem_m * Math.hypot(1, TAN_22_5), Math.PI / 8),
      ];
    case 'rectangle': {
      const [x, y] = face.halfSize_m;
      return [-1, -0.5, 0, 0.5, 1].flatMap((k) => [
        { r_m: k * x, t_m: y },
        { r_m: k * x, t_m: -y },
        { r_m: x, t_m: k * y },
        { r_m: -x, t_m: k * y },
      ]);
    }
  }
}

function round(count: number, radius: number, from: number): FacePoint[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = from + (2 * Math.PI * i) / count;
    return { r_m: radius * Math.cos(angle), t_m: radius * Math.sin(angle) };
  });
}
