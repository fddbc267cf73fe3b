import { contours } from 'd3-contour';
import { newCameraRay, type ThinLens } from '../../core/camera/thin-lens.ts';
import { BOUNDS_STRIDE } from '../../core/geometry/bounds.ts';
import { buildGeometry, type Geometry } from '../../core/geometry/geometry.ts';
import { nearestHit } from '../../core/geometry/ray-query.ts';
import { newHit } from '../../core/geometry/ray-shape.ts';
import type { Part } from '../../core/geometry/shape.ts';
import { dot, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { type PlanePoint, rayThrough } from '../../core/separation/image-plane.ts';

/** Closed lines in the picture plane round what a body covers; the body lies on the same side of all of them. */
export interface Silhouette {
  /** Vertices on the very edge, to within `precision`; the last is followed by the first. */
  readonly rings: readonly (readonly PlanePoint[])[];
}

/** Rays across the longer side of what is scanned: an arm is five of them wide where the whole figure is in frame. */
const GRID = 180;
const BISECTIONS = 14;
/** Nearer to the lens than this, a body is not something to find an outline of by its corners. */
const LEAST_DEPTH_m = 0.05;
/** Slits shorter round than so many cells are chance of the grid. */
const LEAST_RING_CELLS = 8;

/**
 * The silhouette of a body as a pinhole camera sees it, nothing else in the way. A grid of rays tells what is covered,
 * marching squares gives the line between, and bisection along the grid brings every vertex of it onto the edge.
 * What lies out of frame is cut off a little beyond it.
 */
export function silhouetteOf(lens: ThinLens, parts: readonly Part[]): Silhouette {
  const geometry = buildGeometry(parts);
  const window = scannedWindow(lens, geometry);
  if (window === null) return { rings: [] };
  const { left, right, bottom, top } = window;
  const cell = Math.max(right - left, top - bottom) / GRID;
  // A row and a column of nothing all round close the line.
  const columns = Math.ceil((right - left) / cell) + 3;
  const rows = Math.ceil((top - bottom) / cell) + 3;
  const x = (i: number) => left + (i - 1) * cell;
  const y = (j: number) => bottom + (j - 1) * cell;
  const covers = coverage(lens, geometry);
  const covered: number[] = [];
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const inner = i > 0 && i < columns - 1 && j > 0 && j < rows - 1;
      covered.push(inner && covers(x(i), y(j)) ? 1 : 0);
    }
  }
  const { coordinates } = contours().size([columns, rows]).smooth(false).contour(covered, 0.5);
  const rings = coordinates
    .flat()
    .map((ring) =>
      // The library closes a ring with its first vertex, and counts from the corners of the cells.
      ring.slice(0, -1).map(([gx, gy]) => ontoEdge(gx! - 0.5, gy! - 0.5, x, y, covers)),
    )
    .filter((ring) => ring.length >= LEAST_RING_CELLS);
  return { rings };
}

/** A vertex half-way between two grid points, one covered, is moved onto the edge between them. */
function ontoEdge(
  i: number,
  j: number,
  x: (i: number) => number,
  y: (j: number) => number,
  covers: (x: number, y: number) => boolean,
): PlanePoint {
  let from = { x: x(Math.floor(i)), y: y(Math.floor(j)) };
  let to = { x: x(Math.ceil(i)), y: y(Math.ceil(j)) };
  if (covers(to.x, to.y)) [from, to] = [to, from];
  for (let step = 0; step < BISECTIONS; step++) {
    const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
    if (covers(middle.x, middle.y)) from = middle;
    else to = middle;
  }
  return { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
}

/** Whether the ray through a place in the picture plane meets the body. */
export function coverage(lens: ThinLens, geometry: Geometry): (x: number, y: number) => boolean {
  const ray = newCameraRay();
  const hit = newHit();
  return (x, y) => {
    rayThrough(lens, x, y, ray);
    return nearestHit(geometry, ray.ox, ray.oy, ray.oz, ray.dx, ray.dy, ray.dz, 1e-5, 1e5, hit);
  };
}

interface PlaneWindow {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** What part of the picture plane the body's boxes cover, no more than a little over the frame; null for nothing of it. */
function scannedWindow(lens: ThinLens, { bounds, shapeCount }: Geometry): PlaneWindow | null {
  const edge = 1.02;
  const frame = {
    left: -edge * lens.halfWidth,
    right: edge * lens.halfWidth,
    bottom: -edge * lens.halfHeight,
    top: edge * lens.halfHeight,
  };
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  let behind = 0;
  for (let corner = 0; corner < 8 * shapeCount; corner++) {
    const at = (corner >> 3) * BOUNDS_STRIDE;
    const side = (axis: number) => bounds[at + axis + ((corner >> axis) & 1 ? 3 : 0)]!;
    const toCorner = subtract([side(0), side(1), side(2)] as Vec3, lens.position_m);
    const depth = dot(toCorner, lens.forward);
    if (depth < LEAST_DEPTH_m) {
      behind++;
      continue;
    }
    const [px, py] = [dot(toCorner, lens.right) / depth, dot(toCorner, lens.up) / depth];
    [left, right] = [Math.min(left, px), Math.max(right, px)];
    [bottom, top] = [Math.min(bottom, py), Math.max(top, py)];
  }
  if (behind === 8 * shapeCount) return null;
  if (behind > 0) return frame;
  const clipped = {
    left: Math.max(frame.left, left),
    right: Math.min(frame.right, right),
    bottom: Math.max(frame.bottom, bottom),
    top: Math.min(frame.top, top),
  };
  return clipped.left < clipped.right && clipped.bottom < clipped.top ? clipped : null;
}
