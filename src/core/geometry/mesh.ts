import { cross, dot, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import { type Placement, worldPoint } from './placement.ts';
import type { Shape } from './shape.ts';

/** A triangle mesh as plain arrays, in its own units and frame. */
export interface MeshArrays {
  /** x, y, z of each vertex. */
  readonly positions: ArrayLike<number>;
  /** Three vertices a triangle; absent: the vertices in the order given. */
  readonly indices?: ArrayLike<number> | undefined;
}

export interface MeshTriangles {
  readonly triangles: readonly Extract<Shape, { kind: 'triangle' }>[];
  /** Triangles left out because they have no area. */
  readonly droppedCount: number;
}

/** Height over longest side below which a triangle is a line: it could not be hit, and has no normal. */
const FLATTEST = 1e-10;

/**
 * The triangles of a mesh in the world: scaled (metres per unit; negative turns it inside out as a mirror does, with
 * the triangles still facing outward), then placed.
 * @throws RangeError if the arrays do not describe triangles, naming the entry at fault.
 */
export function meshTriangles(mesh: MeshArrays, placement: Placement, scale_m: number): MeshTriangles {
  const { positions, indices } = mesh;
  if (positions.length % 3 !== 0)
    throw new RangeError(`The mesh has ${positions.length} coordinates: expected three for each vertex.`);
  if (!Number.isFinite(scale_m))
    throw new RangeError(`The mesh has scale ${scale_m}: expected a finite number.`);
  const vertexCount = positions.length / 3;
  const cornerCount = indices ? indices.length : vertexCount;
  if (cornerCount % 3 !== 0)
    throw new RangeError(`The mesh has ${cornerCount} corners: expected three for each triangle.`);

  const corner = (i: number): Vec3 => {
    const vertex = indices ? indices[i]! : i;
    if (!(Number.isInteger(vertex) && vertex >= 0 && vertex < vertexCount))
      throw new RangeError(
        `Index ${i} of the mesh names vertex ${vertex}: it has vertices 0 to ${vertexCount - 1}.`,
      );
    const local: Vec3 = [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!];
    if (!local.every(Number.isFinite))
      throw new RangeError(
        `Vertex ${vertex} of the mesh lies at ${local.join(', ')}: expected finite numbers.`,
      );
    return worldPoint(placement, scale(local, scale_m));
  };
  const triangles: Extract<Shape, { kind: 'triangle' }>[] = [];
  let droppedCount = 0;
  for (let i = 0; i < cornerCount; i += 3) {
    const a_m = corner(i);
    const [b_m, c_m] = scale_m < 0 ? [corner(i + 2), corner(i + 1)] : [corner(i + 1), corner(i + 2)];
    if (hasArea(a_m, b_m, c_m)) triangles.push({ kind: 'triangle', a_m, b_m, c_m });
    else droppedCount++;
  }
  return { triangles, droppedCount };
}

function hasArea(a: Vec3, b: Vec3, c: Vec3): boolean {
  const ab = subtract(b, a);
  const ac = subtract(c, a);
  const bc = subtract(c, b);
  const longestSquared = Math.max(dot(ab, ab), dot(ac, ac), dot(bc, bc));
  return length(cross(ab, ac)) > FLATTEST * longestSquared;
}
