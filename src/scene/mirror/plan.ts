import * as bundle from 'polygon-clipping';

/**
 * Shapes on plan, as polygons of x and z in metres: the first ring of a polygon is its outline, the others are holes; rings
 * are closed, the last point the first again. Even–odd counts, so the sense of a ring does not matter.
 */
export type PlanPoint = readonly [x: number, z: number];
export type PlanRing = readonly PlanPoint[];
export type PlanPolygon = readonly PlanRing[];
export type PlanRegion = readonly PlanPolygon[];

/** The package is one object; its types say that it is a module of functions. */
const clipping = (bundle as unknown as { default: typeof bundle }).default;
type Geometry = Parameters<typeof clipping.union>[0];

/** So fine are points kept: edges that cross closer together than this break the sweep. */
const GRAIN_m = 1e-6;

export function union(...regions: readonly PlanRegion[]): PlanRegion {
  const [first, ...others] = regions.filter((region) => region.length > 0).map(kept);
  return first ? clipping.union(first, ...others) : [];
}

export function difference(from: PlanRegion, ...taken: readonly PlanRegion[]): PlanRegion {
  const others = taken.filter((region) => region.length > 0).map(kept);
  return from.length === 0 || others.length === 0 ? from : clipping.difference(kept(from), ...others);
}

export function intersection(a: PlanRegion, b: PlanRegion): PlanRegion {
  return a.length === 0 || b.length === 0 ? [] : clipping.intersection(kept(a), kept(b));
}

function kept(region: PlanRegion): Geometry {
  const grain = (v: number) => Math.round(v / GRAIN_m) * GRAIN_m;
  return region.map((polygon) =>
    polygon.map((ring) => ring.map(([x, z]): [number, number] => [grain(x), grain(z)])),
  );
}

export function regionHolds(region: PlanRegion, x: number, z: number): boolean {
  return region.some((polygon) => polygonHolds(polygon, x, z));
}

/** Even–odd: how often a line from the point toward +x crosses the rings. */
function polygonHolds(polygon: PlanPolygon, x: number, z: number): boolean {
  let within = false;
  for (const ring of polygon)
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [xi, zi] = ring[i]!;
      const [xj, zj] = ring[j]!;
      if (zi > z !== zj > z && x < xi + ((z - zi) * (xj - xi)) / (zj - zi)) within = !within;
    }
  return within;
}

export function area_m2(region: PlanRegion): number {
  const doubled = (ring: PlanRing) =>
    ring.reduce((sum, [x, z], i) => {
      const [x2, z2] = ring[(i + 1) % ring.length]!;
      return sum + x * z2 - x2 * z;
    }, 0);
  return region.reduce((sum, [outline, ...holes]) => {
    const taken = holes.reduce((all, hole) => all + Math.abs(doubled(hole)), 0);
    return sum + (Math.abs(doubled(outline!)) - taken) / 2;
  }, 0);
}

/** The nearest point on the edges of a region, whichever side of them the point is on; null of nothing. */
export function nearestOnEdge(region: PlanRegion, x: number, z: number): PlanPoint | null {
  let nearest: PlanPoint | null = null;
  let least = Infinity;
  for (const polygon of region)
    for (const ring of polygon)
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const point = nearestOnSegment(x, z, ring[j]!, ring[i]!);
        const away = Math.hypot(point[0] - x, point[1] - z);
        if (away >= least) continue;
        least = away;
        nearest = point;
      }
  return nearest;
}

/** Distance on plan to the nearest edge of a region; ∞ from nothing. */
export function toEdge_m(region: PlanRegion, x: number, z: number): number {
  const nearest = nearestOnEdge(region, x, z);
  return nearest ? Math.hypot(nearest[0] - x, nearest[1] - z) : Infinity;
}

function nearestOnSegment(x: number, z: number, [x1, z1]: PlanPoint, [x2, z2]: PlanPoint): PlanPoint {
  const [dx, dz] = [x2 - x1, z2 - z1];
  const long = dx * dx + dz * dz;
  const share = long > 0 ? Math.min(1, Math.max(0, ((x - x1) * dx + (z - z1) * dz) / long)) : 0;
  return [x1 + share * dx, z1 + share * dz];
}

/** The stretches of a ray from a point, in a unit direction, that lie in a region: metres from the point. */
export function stretchesAlong(
  region: PlanRegion,
  [x, z]: PlanPoint,
  [dx, dz]: PlanPoint,
): { readonly from_m: number; readonly to_m: number }[] {
  const crossings: number[] = [];
  for (const polygon of region)
    for (const ring of polygon)
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const [ax, az] = [ring[j]![0] - x, ring[j]![1] - z];
        const [bx, bz] = [ring[i]![0] - x, ring[i]![1] - z];
        // How far to the left of the ray each end lies.
        const [a, b] = [dx * az - dz * ax, dx * bz - dz * bx];
        if (a > 0 === b > 0) continue;
        const share = a / (a - b);
        const along = dx * (ax + share * (bx - ax)) + dz * (az + share * (bz - az));
        if (along > 0) crossings.push(along);
      }
  crossings.sort((p, q) => p - q);
  const edges = regionHolds(region, x, z) ? [0, ...crossings] : crossings;
  return Array.from({ length: edges.length >> 1 }, (_, i) => ({
    from_m: edges[2 * i]!,
    to_m: edges[2 * i + 1]!,
  }));
}

/** The region within so many metres of an outline or inside it; round corners as inscribed polygons of 5.6° a side. */
export function grown(outline_m: PlanRing, by_m: number): PlanRegion {
  const ring = closed(outline_m);
  if (by_m === 0) return union([[ring]]);
  const bands = ring.slice(1).map((to, i): PlanRegion => {
    const from = ring[i]!;
    const [dx, dz] = [to[0] - from[0], to[1] - from[1]];
    const long = Math.hypot(dx, dz);
    const disc: PlanRegion = [[circle(to, by_m)]];
    if (long < GRAIN_m) return disc;
    const [nx, nz] = [(-dz / long) * by_m, (dx / long) * by_m];
    const band = closed([
      [from[0] + nx, from[1] + nz],
      [to[0] + nx, to[1] + nz],
      [to[0] - nx, to[1] - nz],
      [from[0] - nx, from[1] - nz],
    ]);
    return union(disc, [[band]]);
  });
  return union([[ring]], ...bands);
}

const CIRCLE_SIDES = 64;

function circle([x, z]: PlanPoint, radius_m: number): PlanRing {
  return closed(
    Array.from({ length: CIRCLE_SIDES }, (_, i): PlanPoint => {
      const angle = (2 * Math.PI * i) / CIRCLE_SIDES;
      return [x + radius_m * Math.cos(angle), z + radius_m * Math.sin(angle)];
    }),
  );
}

function closed(ring: PlanRing): PlanRing {
  const [first, last] = [ring[0]!, ring.at(-1)!];
  return first[0] === last[0] && first[1] === last[1] ? ring : [...ring, first];
}

export function rectangle(low: PlanPoint, high: PlanPoint): PlanRegion {
  return [[closed([low, [high[0], low[1]], high, [low[0], high[1]]])]];
}
