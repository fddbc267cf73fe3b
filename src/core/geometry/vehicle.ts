import type { Vec3 } from '../math/vec3.ts';
import { type Placement, placementWithin } from './placement.ts';
import type { Rectangle, Shape } from './shape.ts';
import { vehicleProblems, wallOpenings } from './vehicle-openings.ts';
import { SIDES, type VehicleSpec, wallFrame } from './vehicle-spec.ts';

/**
 * A vehicle (boat, lorry, bus, container) as exact sheets: an outer and, if it has an inside, an inner shell a
 * wall's thickness apart, both with the same openings and rounded along the long edges of the roof; reveals that line
 * each opening through the wall; panes half-way through it; and a floor. Every joint is shared edge to edge, so light
 * passes only where there is an opening.
 */
export type VehiclePart =
  | { readonly shape: Sheet; readonly role: 'outside' | 'inside'; readonly name: string }
  | {
      readonly shape: Sheet;
      readonly role: 'pane';
      readonly name: string;
      /** Index of the run in `windows` whose pane this is. */
      readonly windowRun: number;
    };

type Sheet = Extract<Shape, { kind: 'panel' | 'arc' }>;

/**
 * The parts of a vehicle in the world; `placement` is that of the centre of its floor.
 * @throws RangeError with the first of `vehicleProblems(spec)`: nothing is clipped to fit.
 */
export function vehicleParts(spec: VehicleSpec, placement: Placement): VehiclePart[] {
  const problem = vehicleProblems(spec)[0];
  if (problem) throw new RangeError(`${problem.where}: ${problem.message}`);
  const parts: VehiclePart[] = [...shell(spec, 0, 'outside')];
  if (spec.inside) parts.push(...shell(spec, spec.wall_m, 'inside'));
  parts.push(floor(spec), ...openingLinings(spec));
  return parts.map((part) => ({
    ...part,
    shape: { ...part.shape, placement: placementWithin(placement, part.shape.placement) },
  }));
}

/** The walls, the roof and its rounded edges, `inset` inside the outer surface; the inner shell faces inward. */
function* shell(spec: VehicleSpec, inset: number, role: 'outside' | 'inside'): Generator<VehiclePart> {
  const [length, height, width] = spec.size_m;
  const radius = Math.max(0, spec.roofRadius_m - inset);
  const roofEdge = Math.max(spec.roofRadius_m, inset);
  const facing = role === 'outside' ? 1 : -1;

  for (const side of SIDES) {
    const { along, outward, span_m, distance_m, rounded } = wallFrame(spec, side);
    const top = rounded ? height - inset : height - roofEdge;
    const middle = top / 2;
    yield {
      shape: {
        ...sheet(
          point(outward, distance_m - inset, middle),
          scaled(along, facing),
          [0, 1, 0],
          span_m / 2 - inset,
          top / 2,
          wallOpenings(spec, side).map((opening) => seenFrom(facing, opening, middle)),
        ),
        ...(rounded && radius > 0 ? { topRadius_m: radius } : {}),
      },
      role,
      name: `${side} wall, ${role}`,
    };
  }

  if (width / 2 > roofEdge)
    yield {
      shape: sheet(
        [0, height - inset, 0],
        [1, 0, 0],
        [0, 0, -facing],
        length / 2 - inset,
        width / 2 - roofEdge,
      ),
      role,
      name: role === 'outside' ? 'roof' : 'ceiling',
    };
  if (radius > 0)
    for (const sideways of [-1, 1] as const)
      yield {
        shape: {
          kind: 'arc',
          placement: {
            origin_m: [0, height - spec.roofRadius_m, sideways * (width / 2 - spec.roofRadius_m)],
            x: [0, 1, 0],
            y: [1, 0, 0],
            z: [0, 0, -1],
          },
          radius_m: radius,
          halfHeight_m: length / 2 - inset,
          from_deg: sideways < 0 ? 0 : -90,
          to_deg: sideways < 0 ? 90 : 0,
        },
        role,
        name: `${sideways < 0 ? 'left' : 'right'} roof edge, ${role}`,
      };
}

function floor(spec: VehicleSpec): VehiclePart {
  const [length, , width] = spec.size_m;
  return {
    shape: sheet([0, 0, 0], [1, 0, 0], [0, 0, -1], length / 2, width / 2),
    role: spec.inside ? 'inside' : 'outside',
    name: 'floor',
  };
}

/** Reveals and panes. A reveal faces into its opening. */
function* openingLinings(spec: VehicleSpec): Generator<VehiclePart> {
  const role = spec.inside ? 'inside' : 'outside';
  const half = spec.wall_m / 2;
  for (const side of SIDES) {
    const { along, outward, distance_m } = wallFrame(spec, side);
    const at = (a: number, y: number): Vec3 => {
      const [x, , z] = point(outward, distance_m - half, 0);
      return [x + a * along[0], y, z + a * along[2]];
    };
    for (const opening of wallOpenings(spec, side)) {
      const { left_m, right_m, bottom_m, top_m, name } = opening;
      const middle = (left_m + right_m) / 2;
      const centre = (bottom_m + top_m) / 2;
      const halfWidth = (right_m - left_m) / 2;
      const halfHeight = (top_m - bottom_m) / 2;
      const reveal = (shape: Sheet, edge: string): VehiclePart => ({ shape, role, name: `${name}, ${edge}` });
      yield reveal(sheet(at(left_m, centre), scaled(outward, -1), [0, 1, 0], half, halfHeight), 'jamb');
      yield reveal(sheet(at(right_m, centre), outward, [0, 1, 0], half, halfHeight), 'jamb');
      yield reveal(sheet(at(middle, top_m), along, outward, halfWidth, half), 'head');
      if (bottom_m > 0)
        yield reveal(sheet(at(middle, bottom_m), along, scaled(outward, -1), halfWidth, half), 'sill');
      if (opening.windowRun !== null)
        yield {
          shape: sheet(at(middle, centre), along, [0, 1, 0], halfWidth, halfHeight),
          role: 'pane',
          name,
          windowRun: opening.windowRun,
        };
    }
  }
}

/** A wall's opening in the frame of a panel centred `middle` above the floor and seen from outside (1) or inside (−1). */
function seenFrom(facing: 1 | -1, opening: Rectangle, middle: number): Rectangle {
  return {
    left_m: facing > 0 ? opening.left_m : -opening.right_m,
    right_m: facing > 0 ? opening.right_m : -opening.left_m,
    bottom_m: opening.bottom_m - middle,
    top_m: opening.top_m - middle,
  };
}

/** A panel in the vehicle's frame, its front along x × y. */
function sheet(
  origin_m: Vec3,
  x: Vec3,
  y: Vec3,
  halfX_m: number,
  halfY_m: number,
  openings: readonly Rectangle[] = [],
): Extract<Shape, { kind: 'panel' }> {
  const z: Vec3 = [x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]];
  return { kind: 'panel', placement: { origin_m, x, y, z }, halfSize_m: [halfX_m, halfY_m], openings };
}

function point(outward: Vec3, distance_m: number, y_m: number): Vec3 {
  return [outward[0] * distance_m, y_m, outward[2] * distance_m];
}

function scaled(v: Vec3, s: 1 | -1): Vec3 {
  return s > 0 ? v : [-v[0], -v[1], -v[2]];
}
