import { type Calibration as MeterConstants, type Zero, zeroOf } from '../../core/exposure/zero.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { length, normalize, subtract, type Vec3 } from '../../core/math/vec3.ts';
import {
  isMetered,
  type Metering,
  type Reading,
  readingOf,
  refineMetering,
  startMetering,
} from '../../core/meter/meter.ts';
import { DIRECT_DEFAULTS } from '../../core/transport/direct.ts';
import { type DirectMemo, newDirectMemo } from '../../core/transport/direct-memo.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { calibrationOf, chosenCamera, exposureOf } from '../camera/scene-camera.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import { holdIn } from '../readings/corrected-model.ts';
import type { Corrections } from '../readings/corrections.ts';
import { inputAfterReadings_stops } from '../readings/known-better.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Mark } from '../schema/mark.ts';

/** What the document asks of every mark: the answer of `keyfall meter --json`, field by field. */
export interface MeterReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  readonly exposure: {
    readonly fNumber: number;
    readonly shutter_s: number;
    readonly iso: number;
    readonly nd_stops: number;
    readonly loss_stops: number;
    readonly calibration: MeterConstants;
    readonly zero: Zero;
  };
  /** Only where readings of the night have corrected lamps and haze: by how many. */
  readonly corrected?: { readonly readings: number };
  /** Which light the readings hold. What is false is reported as 0 and is not in the sums. */
  readonly covers: {
    readonly direct: true;
    readonly sky: true;
    readonly bounce: boolean;
    readonly haze: boolean;
  };
  readonly marks: readonly MarkReport[];
}

export interface MarkReport extends Reading {
  readonly id: string;
  readonly name: string;
  readonly facing: string;
}

export interface MeterRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  /** Wanted numerical error, 95 %. */
  readonly error_stops?: number | undefined;
  /** Straight light only, in milliseconds; or all light, in about a second. */
  readonly light?: 'direct' | 'all' | undefined;
  /** What the readings of the night say; the light model is to be corrected by them already. */
  readonly corrections?: Corrections | null | undefined;
}

/** The readings of a scene in the making. */
export interface SceneMetering {
  /** Whether every mark has the error that was asked for, or cannot get it. */
  done(): boolean;
  /** Works on the mark that needs it most. */
  refine(): void;
  /** The readings so far, each with the error that it has. */
  report(): MeterReport;
}

const DEFAULT_FACING = 'camera';
const DEFAULT_RECEPTOR = 'dome';
const DEFAULT_ERROR_stops = 0.05;

/** Reads every mark of a scene whose setup has been applied and which is compiled to `model`. */
export function meterScene(
  document: SceneDocument,
  model: LightModel,
  request: MeterRequest = {},
): MeterReport {
  const metering = startMeteringScene(document, model, request);
  while (!metering.done()) metering.refine();
  return metering.report();
}

/** What the readings of a scene can take over from those of the scene before: straight light, by mark. */
export type MeteringMemo = DirectMemo[];

/**
 * The same step by step, for progress and for a page that shows what it has. The same memo again and again spares it what an
 * edit has left as it was; no digit depends on it.
 */
export function startMeteringScene(
  document: SceneDocument,
  model: LightModel,
  request: MeterRequest = {},
  memo: MeteringMemo = [],
): SceneMetering {
  const camera = chosenCamera(document, request.camera);
  const exposure = exposureOf(camera);
  const calibration = calibrationOf(document);
  const all = request.light === 'all';
  const tracer = all ? newTracer(model) : null;
  const error_stops = request.error_stops ?? (all ? DEFAULT_ERROR_stops : DIRECT_DEFAULTS.error_stops);
  const marks = document.marks ?? [];
  memo.length = Math.min(memo.length, marks.length);
  const meterings = marks.map((mark, i): Metering => {
    const receptor = mark.receptor ?? DEFAULT_RECEPTOR;
    const options = { exposure, calibration, error_stops };
    const point = meterPoint(document, mark, camera);
    memo[i] ??= newDirectMemo();
    return startMetering(model, tracer, point, receptor, options, memo[i]);
  });
  const { corrections } = request;
  const used = corrections?.readings.length ?? 0;
  const holds = corrections ? holdIn(corrections, document) : [];
  const read = (metering: Metering): Reading => {
    const reading = readingOf(metering);
    if (!corrections || used === 0) return reading;
    const sigma = model.haze?.extinction_per_m ?? 0;
    const input_stops = inputAfterReadings_stops(reading, sigma, corrections, holds);
    return { ...reading, uncertainty: { ...reading.uncertainty, input_stops } };
  };
  const unfinished = () => meterings.filter((metering) => !isMetered(metering));

  return {
    done: () => unfinished().length === 0,
    refine() {
      const [first, ...others] = unfinished();
      if (!first) return;
      refineMetering(others.reduce((least, m) => (pathsOf(m) < pathsOf(least) ? m : least), first));
    },
    report: () => ({
      keyfall: 1,
      title: document.title,
      setup: request.setup ?? null,
      camera: camera.id,
      exposure: { ...exposure, calibration, zero: zeroOf(exposure, calibration) },
      ...(used > 0 ? { corrected: { readings: used } } : {}),
      covers: { direct: true, sky: true, bounce: all, haze: all },
      marks: meterings.map((metering, i) => ({
        id: marks[i]!.id,
        name: marks[i]!.name ?? marks[i]!.id,
        facing: facingText(marks[i]!),
        ...read(metering),
      })),
    }),
  };
}

function pathsOf(metering: Metering): number {
  return metering.indirect?.paths ?? 0;
}

/** Where a mark's receptor points, as a unit direction. */
export function meterPoint(document: SceneDocument, mark: Mark, camera: Camera) {
  const facing = mark.facing ?? DEFAULT_FACING;
  const toward = (target: Vec3, what: string): Vec3 => {
    const direction = subtract(target, mark.position_m);
    if (length(direction) > 1e-6) return normalize(direction);
    const at = ['marks', (document.marks ?? []).indexOf(mark), 'position_m'];
    throw new SceneError([
      problemAt(document, at, { found: `a mark on ${what} it faces`, expected: 'some distance' }),
    ]);
  };
  if (typeof facing !== 'string') return { position_m: mark.position_m, facing: normalize(facing) };
  if (facing === 'camera')
    return { position_m: mark.position_m, facing: toward(camera.position_m, 'the camera') };
  const lamp = (document.lamps ?? []).find((l) => `lamp:${l.id}` === facing)!;
  return { position_m: mark.position_m, facing: toward(lamp.position_m, 'the lamp') };
}

function facingText(mark: Mark): string {
  const facing = mark.facing ?? DEFAULT_FACING;
  return typeof facing === 'string' ? facing : facing.map((v) => Number(v.toFixed(3))).join(', ');
}
