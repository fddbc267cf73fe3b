import { stopsAbove } from '../../../core/exposure/stops.ts';
import { zeroOf } from '../../../core/exposure/zero.ts';
import { hazeLoss_stops } from '../../../core/haze/extinction.ts';
import type { LightModel } from '../../../core/light-model/light-model.ts';
import { normalize, type Vec3 } from '../../../core/math/vec3.ts';
import { inputUncertainty_stops } from '../../../core/meter/input-uncertainty.ts';
import { directLight } from '../../../core/transport/direct.ts';
import { calibrationOf, exposureOf } from '../../../scene/camera/scene-camera.ts';
import type { PlanPoint } from '../../../scene/mirror/plan.ts';
import { type Lattice, latticeOver, latticePoint } from '../../../scene/mirror/traced-region.ts';
import type { Camera } from '../../../scene/schema/camera.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { MeterHold } from '../plan-state.ts';

/** What a flat cell reads all over a rectangle at one height, straight light of lamps and sky. */
export interface LightLattice {
  readonly lattice: Lattice;
  readonly illuminance_lx: Float64Array;
  /** What a flat cell reads at the camera's zero. */
  readonly zero_lx: number;
  /** ± of what the inputs may be off, the middle one of all places that a camera would see. */
  readonly uncertainty_stops: number;
}

export interface LightPlane {
  readonly low_m: PlanPoint;
  readonly high_m: PlanPoint;
  readonly height_m: number;
  readonly hold: MeterHold;
  /** Lamps that are left out. */
  readonly muted: ReadonlySet<string>;
  /** Places along the longer side. */
  readonly places: number;
}

/** Lines are drawn to a tenth of a stop at most: what is finer does not show. */
const ERROR_stops = 0.1;
const MOST_SAMPLES = 1024;
/** A cell that lies on the ground, not in it. */
const OVER_GROUND_m = 0.01;
/** What is darker than this against the camera's zero has no say in the ±. */
const SEEN_stops = -7;

/** Row by row; yields what share is done. */
export function* lightLattice(
  document: SceneDocument,
  model: LightModel,
  camera: Camera,
  plane: LightPlane,
): Generator<number, LightLattice> {
  const { low_m, high_m, height_m, hold, muted, places } = plane;
  const longer_m = Math.max(high_m[0] - low_m[0], high_m[1] - low_m[1]);
  const lattice = latticeOver(low_m, high_m, longer_m / (places - 1));
  const { columns, rows } = lattice;
  const zero_lx = zeroOf(exposureOf(camera), calibrationOf(document)).flat_lx;
  const heard = { ...model, lamps: model.lamps.filter(({ id }) => !muted.has(id)) };
  const illuminance_lx = new Float64Array(columns * rows);
  const uncertainties: number[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [x, z] = latticePoint(lattice, column, row);
      const position_m: Vec3 = [x, height_m + OVER_GROUND_m, z];
      const facing = hold === 'up' ? UP : towardLevel(position_m, camera.position_m);
      const { total_lx, uncertainty_stops } = flatCell(heard, position_m, facing);
      illuminance_lx[row * columns + column] = total_lx;
      if (stopsAbove(total_lx, zero_lx) > SEEN_stops) uncertainties.push(uncertainty_stops);
    }
    yield (row + 1) / rows;
  }
  uncertainties.sort((a, b) => a - b);
  const uncertainty_stops = uncertainties[uncertainties.length >> 1] ?? 0;
  return { lattice, illuminance_lx, zero_lx, uncertainty_stops };
}

const UP: Vec3 = [0, 1, 0];

function towardLevel(from_m: Vec3, to_m: Vec3): Vec3 {
  const level = normalize([to_m[0] - from_m[0], 0, to_m[2] - from_m[2]]);
  return level[0] === 0 && level[2] === 0 ? UP : level;
}

function flatCell(model: LightModel, position_m: Vec3, facing: Vec3) {
  const { lamps, sky } = directLight(
    model,
    { position_m, facing },
    { receptor: 'flat', error_stops: ERROR_stops, maxSamples: MOST_SAMPLES },
  );
  const sigma = model.haze?.extinction_per_m ?? 0;
  const shares = model.lamps.map((lamp, i) => ({
    head: lamp.head,
    illuminance_lx: lamps[i]!.flat_lx,
    photometry_stops: lamp.photometryUncertainty_stops,
    hazeLoss_stops: hazeLoss_stops(sigma, lamps[i]!.hazed_m),
  }));
  return {
    total_lx: lamps.reduce((sum, { flat_lx }) => sum + flat_lx, sky.flat_lx),
    uncertainty_stops: inputUncertainty_stops(shares, 0, sky.flat_lx),
  };
}
