/**
 * A point of a surface that a path has reached, with its own axes: z along the normal on the side the path came from.
 * Scratch of the tracer, overwritten at each vertex.
 */
export interface SurfacePoint {
  px: number;
  py: number;
  pz: number;
  /** Normal on the side of arrival, and two axes across it. */
  nx: number;
  ny: number;
  nz: number;
  ux: number;
  uy: number;
  uz: number;
  vx: number;
  vy: number;
  vz: number;
  /** Direction back along the path, in the point's own axes; its z is above 0. */
  ox: number;
  oy: number;
  oz: number;
}

export function newSurfacePoint(): SurfacePoint {
  return {
    px: 0,
    py: 0,
    pz: 0,
    nx: 0,
    ny: 0,
    nz: 1,
    ux: 1,
    uy: 0,
    uz: 0,
    vx: 0,
    vy: 1,
    vz: 0,
    ox: 0,
    oy: 0,
    oz: 1,
  };
}

/** Grazing arrivals are lifted to this cosine, so that no division by it overflows. */
const LEAST_COSINE = 1e-6;

/** Sets the point from where a ray of unit direction d met a surface of unit normal n (either side). */
export function arriveAt(
  point: SurfacePoint,
  px: number,
  py: number,
  pz: number,
  dx: number,
  dy: number,
  dz: number,
  nx: number,
  ny: number,
  nz: number,
): void {
  const side = dx * nx + dy * ny + dz * nz > 0 ? -1 : 1;
  point.px = px;
  point.py = py;
  point.pz = pz;
  setNormal(point, side * nx, side * ny, side * nz);
  point.ox = -(dx * point.ux + dy * point.uy + dz * point.uz);
  point.oy = -(dx * point.vx + dy * point.vy + dz * point.vz);
  point.oz = Math.max(LEAST_COSINE, -(dx * point.nx + dy * point.ny + dz * point.nz));
}

/** Two axes across a normal without a branch on its direction (Duff et al. 2017). */
export function setNormal(point: SurfacePoint, nx: number, ny: number, nz: number): void {
  const sign = nz >= 0 ? 1 : -1;
  const a = -1 / (sign + nz);
  const b = nx * ny * a;
  point.nx = nx;
  point.ny = ny;
  point.nz = nz;
  point.ux = 1 + sign * nx * nx * a;
  point.uy = sign * b;
  point.uz = -sign * nx;
  point.vx = b;
  point.vy = sign + ny * ny * a;
  point.vz = -ny;
}
