import { aimThrough, newCameraRay, placeInFrame } from '../../core/camera/thin-lens.ts';
import { thirdsText } from '../../core/exposure/thirds.ts';
import { zeroOf } from '../../core/exposure/zero.ts';
import { readSpot, type Seen, type SpotReading } from '../../core/frame/spot-reading.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { length, normalize, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { xyzFromLinearRgb } from '../../core/picture/linear-rgb.ts';
import { uvPrimeOf } from '../../core/spectra/chromaticity.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { correctedText } from '../../paperwork/corrected-text.ts';
import { significant } from '../../paperwork/exposure-sheet.ts';
import {
  calibrationOf,
  chosenCamera,
  DEFAULT_WHITE_BALANCE_K,
  exposureOf,
  lensOf,
} from '../../scene/camera/scene-camera.ts';
import { displayHex } from '../../scene/colour/display-colour.ts';
import { conversionOf } from '../../scene/monochrome/monochrome.ts';
import type { Camera } from '../../scene/schema/camera.ts';
import {
  CAMERA_OPTION,
  type CommandLineCommand,
  JSON_OPTION,
  type OptionValues,
  SETUP_OPTION,
} from '../command.ts';
import { openCorrectedSet, UNCORRECTED_OPTION } from '../corrected-set.ts';
import { DONE } from '../exit.ts';
import { numberOption, numbersOption } from '../number-option.ts';
import { UsageError } from '../usage-error.ts';

const DEFAULT_ERROR_STOPS = 0.05;

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
    uncorrected: UNCORRECTED_OPTION,
    error: {
      type: 'string',
      value: 'STOPS',
      help: 'wanted numerical error in stops, 95 % (0.05 if left out)',
    },
  },
  async run(path, values, streams) {
    const error_stops = numberOption(values, 'error', 0.001, 2) ?? DEFAULT_ERROR_STOPS;
    const aim = wantedAim(values);
    const { document, model, corrections } = await openCorrectedSet(path, values, streams);
    const camera = chosenCamera(document, values.camera as string | undefined);
    const { from_m, direction, inFrame } = lineOfSight(camera, aim);
    const zero_cd_m2 = zeroOf(exposureOf(camera), calibrationOf(document)).luminance_cd_m2;
    const reading = readSpot(newTracer(model), from_m, direction, { zero_cd_m2, error_stops });
    const looked = {
      camera,
      inFrame,
      zero_cd_m2,
      seen: thingSeen(model, reading.seen),
      readings: corrections?.readings.length ?? 0,
    };
    const colour = colourSeen(reading, camera, zero_cd_m2);
    streams.out(values.json ? spotJson(reading, looked, colour) : spotText(reading, looked, colour));
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

interface Looked {
  readonly camera: Camera;
  readonly inFrame: boolean;
  readonly zero_cd_m2: number;
  /** How many of the night's readings correct lamps and haze. */
  readonly readings: number;
  /** Null for the sky. */
  readonly seen: { readonly id: string; readonly name: string; readonly distance_m: number } | null;
}

interface ColourSeen {
  /** As the frame shows it. */
  readonly srgb: string;
  /** CIE 1976 u′, v′ of the light itself, before white balance; null in the dark. */
  readonly uvPrime: readonly [number, number] | null;
  readonly whiteBalance_K: number;
}

function thingSeen({ owners, lamps }: LightModel, seen: Seen): Looked['seen'] {
  if (seen.kind === 'sky') return null;
  const { id, name } = seen.kind === 'lamp' ? lamps[seen.lamp]! : owners[seen.owner]!;
  return { id, name, distance_m: seen.distance_m };
}

function colourSeen(
  { rgb_linear, luminance_cd_m2 }: SpotReading,
  camera: Camera,
  zero_cd_m2: number,
): ColourSeen {
  const whiteBalance_K = camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K;
  const monochrome = camera.monochrome && conversionOf(camera.monochrome);
  return {
    srgb: displayHex(rgb_linear, zero_cd_m2, { whiteBalance_K, monochrome }),
    uvPrime: luminance_cd_m2 > 0 ? uvPrimeOf(xyzFromLinearRgb(rgb_linear)) : null,
    whiteBalance_K,
  };
}

function spotJson(
  { luminance_cd_m2, stops, uncertainty, rgb_linear, parts }: SpotReading,
  { camera, inFrame, seen }: Looked,
  { srgb, uvPrime }: ColourSeen,
): string {
  return JSON.stringify({
    keyfall: 1,
    camera: camera.id,
    luminance_cd_m2,
    stops: Number.isFinite(stops) ? stops : null,
    uncertainty,
    rgb_linear,
    srgb,
    uvPrime,
    surface: seen?.id ?? null,
    distance_m: seen?.distance_m ?? null,
    inFrame,
    parts,
  });
}

function spotText(
  { luminance_cd_m2, stops, uncertainty, parts }: SpotReading,
  { camera, inFrame, zero_cd_m2, seen, readings }: Looked,
  { srgb, uvPrime, whiteBalance_K }: ColourSeen,
): string {
  const where = seen ? `${seen.name}, ${seen.distance_m.toFixed(1)} m from camera` : 'the sky, from camera';
  const surface = significant(parts.surface_cd_m2);
  const light = uvPrime
    ? `, its light u\u2032 ${uvPrime[0].toFixed(4)} v\u2032 ${uvPrime[1].toFixed(4)}`
    : '';
  return [
    `${where} ${camera.id}${inFrame ? '' : ' (out of frame)'}`,
    `${significant(luminance_cd_m2)} cd/m²  ${thirdsText(stops)} stops from middle grey (${significant(zero_cd_m2)} cd/m²)`,
    `surface ${surface}, haze before it ${significant(parts.haze_cd_m2)} cd/m²`,
    `colour ${srgb} in the frame${camera.monochrome ? ', in monochrome' : ` at ${whiteBalance_K} K`}${light}`,
    `±${uncertainty.numerical_stops.toFixed(2)} stop computed (95 %), ±${uncertainty.input_stops.toFixed(1)} of the lamps, the haze and the surface.`,
    ...(readings > 0 ? [correctedText(readings)] : []),
  ].join('\n');
}
