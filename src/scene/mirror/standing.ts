import { placementFrom } from '../../core/geometry/placement.ts';
import { nearestHit } from '../../core/geometry/ray-query.ts';
import { newHit } from '../../core/geometry/ray-shape.ts';
import { solidAround } from '../../core/geometry/solid-around.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { dot, subtract, type Vec3 } from '../../core/math/vec3.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { VehicleSolid } from '../schema/solid.ts';
import { groundOf } from '../stands/ground.ts';
import { type KeepOut, keepOutAt, keepOutsOf } from './keep-out.ts';

/** What stands or may stand somewhere: a lamp on its stand, a camera on its legs. */
export interface Stander {
  readonly position_m: Vec3;
  readonly footRadius_m: number;
  /** Above the ground that it stands on; ∞ where none is stated. */
  readonly maxHeight_m: number;
}

/** Where a stander may be put, from where it is. */
export interface Standing {
  readonly stander: Stander;
  /** Level of the ground under it. */
  readonly ground_m: number;
  readonly keepOuts: readonly KeepOut[];
  /** Vehicles, each with whether it holds the stander now. */
  readonly vehicles: readonly { readonly vehicle: VehicleSolid; readonly holds: boolean }[];
  readonly model: LightModel;
}

/** A higher or lower floor is another place: quay and water, platform and track. */
const LARGEST_STEP_m = 0.5;
const LEAST_HEIGHT_m = 0.2;

/** Areas in which it stands already are not held against it. */
export function standingOf(document: SceneDocument, model: LightModel, stander: Stander): Standing {
  const [x, , z] = stander.position_m;
  const vehicles = (document.solids ?? []).filter((solid) => solid.shape === 'vehicle');
  return {
    stander,
    ground_m: groundOf(model, stander.position_m).level_m,
    keepOuts: keepOutsOf(document).filter(
      (area) => keepOutAt([area], x, z, stander.footRadius_m) === undefined,
    ),
    vehicles: vehicles.map((vehicle) => ({ vehicle, holds: vehicleHolds(vehicle, stander.position_m) })),
    model,
  };
}

/** Whether it may be carried there in a straight line, at the height it then has. */
export function mayMoveTo(standing: Standing, position_m: Vec3): boolean {
  return (
    mayStandAt(standing, position_m) && wayIsFree(standing.model, standing.stander.position_m, position_m)
  );
}

/** Whether it may stand there, however it gets there. */
export function mayStandAt(standing: Standing, position_m: Vec3): boolean {
  const { stander, keepOuts } = standing;
  const [x, , z] = position_m;
  return (
    fitsAt(standing, position_m) &&
    hasGround(standing, position_m) &&
    keepOutAt(keepOuts, x, z, stander.footRadius_m) === undefined
  );
}

/** Whether nothing solid is there, keep-out areas and ground not looked at. */
export function fitsAt({ vehicles, model }: Standing, position_m: Vec3): boolean {
  if (solidAround(model.geometry, position_m) >= 0) return false;
  return vehicles.every(({ vehicle, holds }) => vehicleHolds(vehicle, position_m) === holds);
}

/** Where nothing is modelled under the stander, there is ground everywhere. */
function hasGround({ ground_m, stander, model }: Standing, position_m: Vec3): boolean {
  const height = position_m[1] - ground_m;
  if (height < LEAST_HEIGHT_m || height > stander.maxHeight_m + 1e-9) return false;
  const ground = groundOf(model, position_m);
  if (ground.on === null) return groundOf(model, stander.position_m).on === null;
  return (
    Math.abs(ground.level_m - ground_m) <= LARGEST_STEP_m &&
    position_m[1] - ground.level_m <= stander.maxHeight_m + 1e-9
  );
}

const hit = newHit();

const OFF_m = 1e-6;

function wayIsFree({ geometry }: LightModel, from: Vec3, to: Vec3): boolean {
  return !nearestHit(geometry, ...from, ...subtract(to, from), OFF_m, 1, hit);
}

/** By its outer box; the rounding of its roof is not looked at. */
function vehicleHolds({ position_m, rotation_deg, size_m }: VehicleSolid, point_m: Vec3): boolean {
  const { x, y, z } = placementFrom(position_m, rotation_deg);
  const d = subtract(point_m, position_m);
  const up = dot(d, y);
  return (
    Math.abs(dot(d, x)) < size_m[0] / 2 && up > 0 && up < size_m[1] && Math.abs(dot(d, z)) < size_m[2] / 2
  );
}
