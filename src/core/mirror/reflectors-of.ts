import { BOUNDS_STRIDE } from '../geometry/bounds.ts';
import { type FlatFace, flatFaces } from '../geometry/flat-face.ts';
import type { Geometry } from '../geometry/geometry.ts';
import type { Shape } from '../geometry/shape.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { add, dot, scale } from '../math/vec3.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { flatMirror } from './flat-mirror.ts';
import { meshMirror } from './mesh-mirror.ts';
import type { Mirror, Reflector } from './reflector.ts';
import { sphereMirror, tubeMirror, tubeOf } from './round-mirror.ts';

/**
 * Rougher finishes spread a lamp over so many degrees that it is the shade of the surface, not a glint in it: `spot` reads
 * that. α = 0.3 is a roughness of 0.55.
 */
export const GLINT_MAX_ALPHA = 0.3;

const known = new WeakMap<LightModel['parts'], readonly Reflector[]>();

/** Owners of glossy surfaces that are too rough to mirror, each once. */
export function roughGlosses(model: LightModel): readonly number[] {
  const owners = model.parts.flatMap(({ substance, owner }) => {
    if (substance.kind !== 'material') return [];
    const { optics } = model.surfaces[substance.index]!;
    return optics.glossy && optics.alpha > GLINT_MAX_ALPHA ? [owner] : [];
  });
  return [...new Set(owners)];
}

/** Every glossy surface of a scene. The same parts give the same list again, so that lamps may be moved at no cost. */
export function reflectorsOf(model: LightModel): readonly Reflector[] {
  const before = known.get(model.parts);
  if (before) return before;
  const made: Reflector[] = [];
  const meshes = new Map<string, { optics: SurfaceOptics; members: number[] }>();
  for (const [part, { shape, substance, owner }] of model.parts.entries()) {
    if (substance.kind !== 'material') continue;
    const { optics } = model.surfaces[substance.index]!;
    if (!optics.glossy || optics.alpha > GLINT_MAX_ALPHA) continue;
    if (shape.kind === 'triangle') {
      const key = `${owner} ${substance.index}`;
      const mesh = meshes.get(key) ?? { optics, members: [] };
      mesh.members.push(part);
      meshes.set(key, mesh);
    } else {
      const box_m = boxRound(model.geometry, [part]);
      made.push(...shapeMirrors(shape, part).map((mirror) => ({ ...mirror, optics, box_m })));
    }
  }
  for (const { optics, members } of meshes.values())
    made.push({ ...meshMirror(model.parts, members), optics, box_m: boxRound(model.geometry, members) });
  known.set(model.parts, made);
  return made;
}

function boxRound({ bounds }: Geometry, parts: readonly number[]): Float64Array {
  const box = bounds.slice(parts[0]! * BOUNDS_STRIDE, (parts[0]! + 1) * BOUNDS_STRIDE);
  for (const part of parts)
    for (let k = 0; k < 3; k++) {
      box[k] = Math.min(box[k]!, bounds[part * BOUNDS_STRIDE + k]!);
      box[k + 3] = Math.max(box[k + 3]!, bounds[part * BOUNDS_STRIDE + k + 3]!);
    }
  return box;
}

function shapeMirrors(shape: Shape, part: number): Mirror[] {
  const flat = [...flatFaces(shape), ...caps(shape)].map((face) => flatMirror(face, part));
  const tube = tubeOf(shape);
  return [...flat, ...(tube ? [tubeMirror(tube, part)] : []), ...sphereMirrors(shape, part)];
}

/** The ends of a cylinder, as squares: that a corner is not there, a look at the scene tells. */
function caps(shape: Shape): FlatFace[] {
  if (shape.kind !== 'cylinder') return [];
  const { placement, radius_m, halfHeight_m } = shape;
  const { x, y, z, origin_m } = placement;
  return [1, -1].map((side) => ({
    centre_m: add(origin_m, scale(y, side * halfHeight_m)),
    u: x,
    v: z,
    n: scale(y, side),
    halfU_m: radius_m,
    halfV_m: radius_m,
    oneSided: true,
  }));
}

function sphereMirrors(shape: Shape, part: number): Mirror[] {
  if (shape.kind === 'sphere') return [sphereMirror(shape.centre_m, shape.radius_m, () => true, part)];
  if (shape.kind !== 'capsule') return [];
  const { placement, radius_m, halfLength_m } = shape;
  const { y, origin_m } = placement;
  return [1, -1].map((side) =>
    sphereMirror(
      add(origin_m, scale(y, side * halfLength_m)),
      radius_m,
      (direction) => side * dot(direction, y) >= 0,
      part,
    ),
  );
}
