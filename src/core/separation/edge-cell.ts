import { type CameraRay, newCameraRay, type ThinLens } from '../camera/thin-lens.ts';
import { nearestHit } from '../geometry/ray-query.ts';
import { type Hit, newHit } from '../geometry/ray-shape.ts';
import type { LightModel } from '../light-model/light-model.ts';
import type { Vec3 } from '../math/vec3.ts';
import { clearance_m } from '../transport/source-sample.ts';
import { frameFromPlane, type PlanePoint, rayThrough } from './image-plane.ts';

/**
 * A short piece of a figure's outline as the camera sees it, with a band to either side in which light is read: from the
 * edge EDGE_BAND of the frame's height inward, on the figure, and as far outward, on what is behind. So wide is what an
 * eye takes for the edge of a figure in the whole frame; a rim light fills it, a crease does not.
 */
export interface EdgeCell {
  /** Which closed line of the outline it is of, and which of how many pieces of it. */
  readonly ring: number;
  readonly index: number;
  readonly ofRing: number;
  /** Vertices along the edge, the figure on the right as they run. */
  readonly line: readonly PlanePoint[];
  readonly length: number;
  /** Place of its middle in the frame, 0..1 from the left and from the top. */
  readonly place: { readonly u: number; readonly v: number };
  /** Part of the model that is seen just inside, and where it is met. */
  readonly part: number;
  readonly point_m: Vec3;
  /** Index of the owner of what is seen just outside; −1 for the sky. */
  readonly behind: number;
}

/** A figure's outline in pieces: those that can be read, and how much cannot be, as parts of the whole outline. */
export interface CutOutline {
  readonly cells: readonly EdgeCell[];
  /** Behind other things, among what is in frame. */
  readonly hidden: number;
  readonly outOfFrame: number;
}

/** The band's width as part of the frame's height. */
export const EDGE_BAND = 0.004;

/** Where a cell is looked at to tell what is on either side: along it and across the band. */
const PROBES_ALONG = [0.1, 0.5, 0.9];
const PROBES_ACROSS = [0.2, 0.5, 0.8];
/** A cell counts as seen when so many of the nine probes inside meet the figure. */
const LEAST_SEEN = 5;

/**
 * Cuts the closed lines of an outline into pieces of even length, about `count` of them in frame, and keeps those whose
 * inside is seen. `figure` is the index of the figure among the model's owners.
 */
export function cutOutline(
  model: LightModel,
  lens: ThinLens,
  figure: number,
  rings: readonly (readonly PlanePoint[])[],
  count: number,
): CutOutline {
  const inFrame = rings.reduce((sum, ring) => sum + lengthInFrame(lens, ring), 0);
  const whole = rings.reduce((sum, ring) => sum + lengthOf([...ring, ring[0]!]), 0);
  const cells: EdgeCell[] = [];
  let hidden = 0;
  for (const [r, ring] of rings.entries()) {
    const closed = [...ring, ring[0]!];
    const length = lengthOf(closed);
    const pieces = Math.max(1, Math.round((length * count) / inFrame));
    for (let index = 0; index < pieces; index++) {
      const line = sectionOf(closed, (index * length) / pieces, ((index + 1) * length) / pieces);
      const place = frameFromPlane(lens, pointAlong(line, length / pieces / 2, 0, newPlane()));
      if (!withinFrame(place)) continue;
      const seen = probe(model, lens, figure, line);
      if (seen) cells.push({ ring: r, index, ofRing: pieces, line, length: length / pieces, place, ...seen });
      else hidden += length / pieces;
    }
  }
  return {
    cells,
    hidden: inFrame > 0 ? hidden / inFrame : 0,
    outOfFrame: whole > 0 ? 1 - inFrame / whole : 1,
  };
}

/** Width of the band in the picture plane. */
export function bandWidth(lens: ThinLens): number {
  return EDGE_BAND * 2 * lens.halfHeight;
}

interface MutablePoint {
  x: number;
  y: number;
}

function newPlane(): MutablePoint {
  return { x: 0, y: 0 };
}

/** A point so far along a line, moved off to its left (outward) by `off`. */
export function pointAlong(
  line: readonly PlanePoint[],
  length: number,
  off: number,
  into: MutablePoint,
): MutablePoint {
  let left = length;
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const l = Math.hypot(b.x - a.x, b.y - a.y);
    if ((left <= l && l > 0) || i === line.length - 1) {
      const t = l > 0 ? left / l : 0;
      const k = l > 0 ? off / l : 0;
      into.x = a.x + t * (b.x - a.x) - k * (b.y - a.y);
      into.y = a.y + t * (b.y - a.y) + k * (b.x - a.x);
      return into;
    }
    left -= l;
  }
  return into;
}

export function lengthOf(line: readonly PlanePoint[]): number {
  let length = 0;
  for (let i = 1; i < line.length; i++)
    length += Math.hypot(line[i]!.x - line[i - 1]!.x, line[i]!.y - line[i - 1]!.y);
  return length;
}

/** The part of a line between two lengths along it. */
function sectionOf(line: readonly PlanePoint[], from: number, to: number): PlanePoint[] {
  const at = (length: number) => pointAlong(line, length, 0, newPlane());
  const section: PlanePoint[] = [at(from)];
  let length = 0;
  for (let i = 1; i < line.length; i++) {
    length += Math.hypot(line[i]!.x - line[i - 1]!.x, line[i]!.y - line[i - 1]!.y);
    if (length > from && length < to) section.push(line[i]!);
  }
  section.push(at(to));
  return section;
}

function withinFrame({ u, v }: { readonly u: number; readonly v: number }): boolean {
  return u >= 0 && u <= 1 && v >= 0 && v <= 1;
}

function lengthInFrame(lens: ThinLens, ring: readonly PlanePoint[]): number {
  let length = 0;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
    if (withinFrame(frameFromPlane(lens, middle))) length += Math.hypot(b.x - a.x, b.y - a.y);
  });
  return length;
}

const ray: CameraRay = newCameraRay();
const place: MutablePoint = newPlane();
const hit: Hit = newHit();
/** Panes one behind the other that a look goes through before it gives up. */
const MOST_PANES = 64;

/** What is on either side of a piece of outline; null where too little of the figure is seen. */
function probe(
  model: LightModel,
  lens: ThinLens,
  figure: number,
  line: readonly PlanePoint[],
): Pick<EdgeCell, 'part' | 'point_m' | 'behind'> | null {
  const band = bandWidth(lens);
  const length = lengthOf(line);
  const parts: number[] = [];
  const behind: number[] = [];
  let point_m: Vec3 = [0, 0, 0];
  let depth = 0;
  for (const along of PROBES_ALONG) {
    for (const across of PROBES_ACROSS) {
      const { x, y } = pointAlong(line, along * length, -across * band, place);
      rayThrough(lens, x, y, ray);
      const t = opaqueAlong(model, ray, 0);
      if (t === null || model.parts[hit.shape]!.owner !== figure) continue;
      parts.push(hit.shape);
      depth = t;
      // The probes run from end to end; the last that is met before the middle is passed stands for the cell.
      if (along <= 0.5 || parts.length === 1)
        point_m = [ray.ox + t * ray.dx, ray.oy + t * ray.dy, ray.oz + t * ray.dz];
    }
  }
  if (parts.length < LEAST_SEEN) return null;
  for (const along of PROBES_ALONG) {
    for (const across of PROBES_ACROSS) {
      const { x, y } = pointAlong(line, along * length, across * band, place);
      rayThrough(lens, x, y, ray);
      const t = opaqueAlong(model, ray, depth);
      const owner = t === null ? -1 : model.parts[hit.shape]!.owner;
      if (owner !== figure) behind.push(owner);
    }
  }
  if (behind.length === 0) return null;
  return { part: mostOf(parts), point_m, behind: mostOf(behind) };
}

function mostOf(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].reduce((most, entry) => (entry[1] > most[1] ? entry : most))[0];
}

/**
 * Where a ray first meets something that is not a pane, or a pane farther than `panesFrom_m`, in `hit`; null for the sky.
 */
function opaqueAlong(
  model: LightModel,
  { ox, oy, oz, dx, dy, dz }: CameraRay,
  panesFrom_m: number,
): number | null {
  let from = clearance_m(0);
  for (let i = 0; i < MOST_PANES; i++) {
    if (!nearestHit(model.geometry, ox, oy, oz, dx, dy, dz, from, 1e5, hit)) return null;
    const isPane = model.parts[hit.shape]!.substance.kind === 'pane';
    if (!isPane || (panesFrom_m > 0 && hit.t > panesFrom_m)) return hit.t;
    from = hit.t + clearance_m(hit.t);
  }
  return null;
}

/** Whether the figure is what a ray first meets, panes apart. */
export function meetsFigure(model: LightModel, figure: number, through: CameraRay): boolean {
  return opaqueAlong(model, through, 0) !== null && model.parts[hit.shape]!.owner === figure;
}
