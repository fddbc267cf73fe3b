import type { Part, Shape } from '../geometry/shape.ts';
import { triangleNormal } from '../geometry/shape-record.ts';
import { add, cross, distance, dot, normalize, scale, subtract, type Vec3 } from '../math/vec3.ts';
import type { Mirror, MirrorPoint } from './reflector.ts';

/**
 * A mesh as a mirror, by Fermat: light takes the ways whose length |c − q| + |q − s| is least among their neighbours. On
 * each triangle the least is found exactly (where its plane mirrors, else on an edge, else at a corner); an edge or corner
 * counts where every triangle that meets there agrees. That is where the smooth surface, for which the facets stand,
 * mirrors, if it bulges. The hollows of a mesh, where the length is greatest, are not found, and sharp creases are not
 * taken for something smooth.
 */
export function meshMirror(parts: readonly Part[], members: readonly number[]): Mirror {
  const mesh = jointMesh(parts, members);
  const held = new Set(members);
  const mirrored = (eye: Vec3, point: Vec3) => leastWays(mesh, mesh.facets, eye, point);
  return {
    holds: (part) => held.has(part),
    approximate: true,
    mirrored,
    follow: (eye, point, from) => {
      const near = leastWays(mesh, facetsAround(mesh, from.part), eye, point);
      return near.reduce<MirrorPoint | null>(
        (best, q) =>
          best && distance(best.point_m, from.point_m) <= distance(q.point_m, from.point_m) ? best : q,
        null,
      );
    },
    nearestWithin: (_eye, _point, from) => from,
    walk: (from, direction, distance_m) => ({
      ...from,
      point_m: add(from.point_m, scale(direction, distance_m)),
    }),
  };
}

type Triangle = Extract<Shape, { kind: 'triangle' }>;

interface Facet {
  readonly part: number;
  readonly corners: readonly [Vec3, Vec3, Vec3];
  readonly normal: Vec3;
  readonly middle: Vec3;
  /** By edge: square to it within the triangle, inward. */
  readonly inward: readonly [Vec3, Vec3, Vec3];
  /** Corners by number, the same for all triangles that meet there. */
  readonly ids: readonly [number, number, number];
}

/** Cosine of how far the facets round a smooth place may lean from the half-way direction there. */
const SMOOTH = Math.cos(Math.PI / 6);
/** The same at the middle of a facet, with room for the half-way direction to change across it. */
const NEARLY_SMOOTH = 0.7;

interface JointMesh {
  readonly facets: readonly Facet[];
  readonly byPart: ReadonlyMap<number, Facet>;
  /** By corner: the triangles that meet there. */
  readonly around: readonly (readonly Facet[])[];
}

/** Corners closer than this are one. */
const WELD_m = 1e-6;

function jointMesh(parts: readonly Part[], members: readonly number[]): JointMesh {
  const numbers = new Map<string, number>();
  const around: Facet[][] = [];
  const numberOf = (p: Vec3): number => {
    const key = p.map((x) => Math.round(x / WELD_m)).join();
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, around.length);
    around.push([]);
    return around.length - 1;
  };
  const facets = members.map((part): Facet => {
    const { a_m, b_m, c_m } = parts[part]!.shape as Triangle;
    const ids = [numberOf(a_m), numberOf(b_m), numberOf(c_m)] as const;
    const normal = triangleNormal(a_m, b_m, c_m);
    const facet: Facet = {
      part,
      corners: [a_m, b_m, c_m],
      normal,
      middle: scale(add(a_m, add(b_m, c_m)), 1 / 3),
      inward: [
        cross(normal, subtract(b_m, a_m)),
        cross(normal, subtract(c_m, b_m)),
        cross(normal, subtract(a_m, c_m)),
      ],
      ids,
    };
    for (const id of ids) around[id]!.push(facet);
    return facet;
  });
  return { facets, byPart: new Map(facets.map((f) => [f.part, f])), around };
}

function facetsAround({ byPart, around }: JointMesh, part: number): readonly Facet[] {
  const ids = byPart.get(part)?.ids ?? [];
  return [...new Set(ids.flatMap((id) => around[id]!))];
}

interface Least {
  readonly point_m: Vec3;
  /** Corners of the triangle that it lies between: two on an edge, one at a corner. */
  readonly between: readonly number[];
}

function leastWays({ around }: JointMesh, facets: readonly Facet[], eye: Vec3, point: Vec3): MirrorPoint[] {
  const found: MirrorPoint[] = [];
  const agreed = new Map<string, { count: number; first: Facet; point_m: Vec3; side: number }>();
  for (const facet of facets) {
    const { corners, normal } = facet;
    const heightEye = height(eye, corners[0], normal);
    const heightPoint = height(point, corners[0], normal);
    if (heightEye * heightPoint <= 0) continue;
    const side = heightEye > 0 ? 1 : -1;
    if (mirrorsInside(facet, eye, point, heightEye, heightPoint)) {
      const share = heightEye / (heightEye + heightPoint);
      const [from, to] = [
        subtract(eye, scale(normal, heightEye)),
        subtract(point, scale(normal, heightPoint)),
      ];
      const point_m = add(from, scale(subtract(to, from), share));
      found.push({ point_m, normal: scale(normal, side), part: facet.part, within: true });
      continue;
    }
    if (side * halfwayCosine(facet.middle, normal, eye, point) < NEARLY_SMOOTH) continue;
    const { point_m, between } = leastOnEdges(facet, eye, point);
    const key = [...between].sort((a, b) => a - b).join();
    const known = agreed.get(key);
    if (!known) agreed.set(key, { count: 1, first: facet, point_m, side });
    else if (known.side === side) known.count++;
  }
  for (const [key, { count, first, point_m }] of agreed) {
    const corners = key.split(',').map(Number);
    const meeting = around[corners[0]!]!.filter((f) => corners.every((id) => f.ids.includes(id)));
    // At the border of an open mesh the least way only means that the image is off it.
    if (count < meeting.length || count < 2) continue;
    if (corners.length === 1 && isBorder(meeting, corners[0]!)) continue;
    const half = normalize(add(normalize(subtract(eye, point_m)), normalize(subtract(point, point_m))));
    if (meeting.some(({ normal }) => Math.abs(dot(half, normal)) < SMOOTH)) continue;
    found.push({ point_m, normal: half, part: first.part, within: true });
  }
  return found;
}

/** Whether some edge at a corner has a triangle on one side only. */
function isBorder(meeting: readonly Facet[], corner: number): boolean {
  const uses = new Map<number, number>();
  for (const { ids } of meeting)
    for (const id of ids) if (id !== corner) uses.set(id, (uses.get(id) ?? 0) + 1);
  return [...uses.values()].some((count) => count < 2);
}

function height(p: Vec3, origin: Vec3, n: Vec3): number {
  return (p[0] - origin[0]) * n[0] + (p[1] - origin[1]) * n[1] + (p[2] - origin[2]) * n[2];
}

/** Whether the triangle's plane mirrors inside it. Asked of every triangle, so it allocates nothing. */
function mirrorsInside(
  { corners, normal, inward }: Facet,
  eye: Vec3,
  point: Vec3,
  heightEye: number,
  heightPoint: number,
): boolean {
  const share = heightEye / (heightEye + heightPoint);
  const down = heightEye + share * (heightPoint - heightEye);
  const x = eye[0] + share * (point[0] - eye[0]) - down * normal[0];
  const y = eye[1] + share * (point[1] - eye[1]) - down * normal[1];
  const z = eye[2] + share * (point[2] - eye[2]) - down * normal[2];
  for (let i = 0; i < 3; i++) {
    const c = corners[i]!;
    const m = inward[i]!;
    if ((x - c[0]) * m[0] + (y - c[1]) * m[1] + (z - c[2]) * m[2] < 0) return false;
  }
  return true;
}

/** Cosine between a normal and the direction half-way from a place to both ends. Allocates nothing. */
function halfwayCosine(q: Vec3, n: Vec3, eye: Vec3, point: Vec3): number {
  const [ex, ey, ez] = [eye[0] - q[0], eye[1] - q[1], eye[2] - q[2]];
  const [px, py, pz] = [point[0] - q[0], point[1] - q[1], point[2] - q[2]];
  const e = 1 / Math.sqrt(ex * ex + ey * ey + ez * ez);
  const p = 1 / Math.sqrt(px * px + py * py + pz * pz);
  const [hx, hy, hz] = [ex * e + px * p, ey * e + py * p, ez * e + pz * p];
  return (hx * n[0] + hy * n[1] + hz * n[2]) / Math.sqrt(hx * hx + hy * hy + hz * hz);
}

/** The place on the edges of a triangle with the shortest way. */
function leastOnEdges({ corners, ids }: Facet, eye: Vec3, point: Vec3): Least {
  let best: Least | null = null;
  let shortest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i++) {
    const j = (i + 1) % 3;
    const [a, b] = [corners[i]!, corners[j]!];
    const t = leastAlong(a, b, eye, point);
    const p = add(a, scale(subtract(b, a), t));
    const way = distance(p, eye) + distance(p, point);
    if (way >= shortest) continue;
    shortest = way;
    best = { point_m: p, between: t <= 0 ? [ids[i]!] : t >= 1 ? [ids[j]!] : [ids[i]!, ids[j]!] };
  }
  return best!;
}

/** Where along an edge, 0..1, the way is shortest: turned about the edge into one plane it is straight. */
function leastAlong(a: Vec3, b: Vec3, eye: Vec3, point: Vec3): number {
  const edge = subtract(b, a);
  const squared = dot(edge, edge);
  const [e, p] = [subtract(eye, a), subtract(point, a)];
  const [te, tp] = [dot(e, edge) / squared, dot(p, edge) / squared];
  const he = Math.sqrt(Math.max(0, dot(e, e) - te * te * squared));
  const hp = Math.sqrt(Math.max(0, dot(p, p) - tp * tp * squared));
  const t = he + hp > 0 ? te + ((tp - te) * he) / (he + hp) : te;
  return Math.min(1, Math.max(0, t));
}
