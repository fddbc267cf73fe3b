import { aimThrough, newCameraRay, placeInFrame } from '../../core/camera/thin-lens.ts';
import { thirdsText } from '../../core/exposure/thirds.ts';
import { zeroOf } from '../../core/exposure/zero.ts';
import { readSpot, type SpotReading } from '../../core/frame/spot-reading.ts';
import { length, normalize, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { significant } from '../../paperwork/exposure-sheet.ts';
import { calibrationOf, chosenCamera, exposureOf, lensOf } from '../../scene/camera/scene-camera.ts';
import type { Camera } from '../../scene/schema/camera.ts';
import {
  CAMERA_OPTION,
  type CommandLineCommand,
  JSON_OPTION,
  type OptionValues,
  SETUP_OPTION,
} from '../command.ts';
import { DONE } from '../exit.ts';
import { numberOption, numbersOption } from '../number-option.ts';
import { openSet } from '../opened-set.ts';
import { UsageError } from '../usage-error.ts';

const DEFAULT_ERROR_STOPS = 0.05;
/** A reading of the spot meter is as sure as the lamps and the surface are: common practice, no source. */
const INPUT_STOPS = 1;

/** Luminance and stops along one line of sight of a camera. */
export const spot: CommandLineCommand = {
  name: 'spot',
  answers: 'luminance and stops of a point as the camera sees it',
  options: {
    point: { type: 'string', value: 'X,Y,Z', help: 'the point of the scene to look at, metres' },
    pixel: {
      type: 'string',
      value: 'U,V',
      help: 'or the place in the frame, 0..1 from the left and from the top',
    },
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    json: JSON_OPTION,
    error: {
      type: 'string',
      value: 'STOPS',
      help: 'wanted numerical error in stops, 95 % (0.05 if left out)',
    },
  },
  async run(path, values, streams) {
    const error_stops = numberOption(values, 'error', 0.001, 2) ?? DEFAULT_ERROR_STOPS;
    const aim = wantedAim(values);
    const { document, model } = await openSet(path, values, streams);
    const camera = chosenCamera(document, values.camera as string | undefined);
    const { from_m, direction, inFrame } = lineOfSight(camera, aim);
    const zero = zeroOf(exposureOf(camera), calibrationOf(document));
    const options = { zero_cd_m2: zero.luminance_cd_m2, error_stops };
    const reading = readSpot(newTracer(model), from_m, direction, options);
    const owner = model.owners[reading.owner];
    if (values.json) {
      streams.out(
        JSON.stringify({
          keyfall: 1,
          camera: camera.id,
          luminance_cd_m2: reading.luminance_cd_m2,
          stops: Number.isFinite(reading.stops) ? reading.stops : null,
          uncertainty: { numerical_stops: reading.numerical_stops, input_stops: INPUT_STOPS },
          rgb_linear: reading.rgb_linear,
          surface: owner?.id ?? null,
          inFrame,
          parts: reading.parts,
        }),
      );
    } else {
      streams.out(spotText(reading, camera, owner?.name ?? 'the sky', zero.luminance_cd_m2, inFrame));
    }
    return DONE;
  },
};

type Aim = { readonly point_m: Vec3 } | { readonly pixel: readonly [number, number] };

function wantedAim(values: OptionValues): Aim {
  const point = numbersOption(values, 'point', 'X,Y,Z');
  const pixel = numbersOption(values, 'pixel', 'U,V');
  if (point && !pixel) return { point_m: point as unknown as Vec3 };
  if (!pixel || point) throw new UsageError('give either --point X,Y,Z or --pixel U,V');
  const [u, v] = pixel as [number, number];
  if (u < 0 || u > 1 || v < 0 || v > 1)
    throw new UsageError(`--pixel ${u},${v}: give places in the frame, 0 to 1`);
  return { pixel: [u, v] };
}

function lineOfSight(camera: Camera, aim: Aim): { from_m: Vec3; direction: Vec3; inFrame: boolean } {
  const lens = lensOf(camera);
  if ('point_m' in aim) {
    const toPoint = subtract(aim.point_m, camera.position_m);
    if (length(toPoint) < 1e-6) throw new UsageError('--point is where the camera stands');
    const place = placeInFrame(lens, aim.point_m);
    const inFrame = place !== null && place.u >= 0 && place.u <= 1 && place.v >= 0 && place.v <= 1;
    return { from_m: camera.position_m, direction: normalize(toPoint), inFrame };
  }
  const ray = newCameraRay();
  aimThrough(lens, aim.pixel[0], aim.pixel[1], 0, 0, ray);
  return { from_m: camera.position_m, direction: [ray.dx, ray.dy, ray.dz], inFrame: true };
}

function spotText(
  { luminance_cd_m2, stops, numerical_stops, parts }: SpotReading,
  camera: Camera,
  seen: string,
  zero_cd_m2: number,
  inFrame: boolean,
): string {
  const surface = significant(parts.surface_cd_m2);
  return [
    `${seen}, from camera ${camera.id}${inFrame ? '' : ' (out of frame)'}`,
    `${significant(luminance_cd_m2)} cd/m²  ${thirdsText(stops)} stops from middle grey (${significant(zero_cd_m2)} cd/m²)`,
    `surface ${surface}, haze before it ${significant(parts.haze_cd_m2)} cd/m²`,
    `±${numerical_stops.toFixed(2)} stop computed (95 %), ±${INPUT_STOPS} of the lamps and the surface.`,
  ].join('\n');
}
