import { onlyLamps } from '../../core/balance/only-lamps.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { type Reading, readMeter } from '../../core/meter/meter.ts';
import { directLight } from '../../core/transport/direct.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { calibrationOf, exposureOf } from '../camera/scene-camera.ts';
import { meterPoint } from '../meter/meter-scene.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Mark } from '../schema/mark.ts';

/** All light of one lamp at a mark, without sky. */
export function readLampAlone(
  document: SceneDocument,
  model: LightModel,
  camera: Camera,
  mark: Mark,
  lamp: string,
  error_stops: number,
): Reading {
  const alone = onlyLamps(model, new Set([lamp]));
  return readMeter(alone, newTracer(alone), meterPoint(document, mark, camera), receptorOf(mark), {
    exposure: exposureOf(camera),
    calibration: calibrationOf(document),
    error_stops,
  });
}

/** Straight light of one lamp at a mark, lx: what a search can afford to ask for again and again. */
export function straightLight_lx(
  document: SceneDocument,
  model: LightModel,
  camera: Camera,
  mark: Mark,
  lamp: string,
): number {
  const receptor = receptorOf(mark);
  const alone = onlyLamps(model, new Set([lamp]));
  const light = directLight(alone, meterPoint(document, mark, camera), {
    receptor,
    error_stops: SEARCH_ERROR_stops,
    maxSamples: 4096,
  });
  const own = light.lamps[model.lamps.findIndex((l) => l.id === lamp)]!;
  return receptor === 'flat' ? own.flat_lx : own.dome_lx;
}

const SEARCH_ERROR_stops = 0.01;

export function receptorOf(mark: Mark): Receptor {
  return mark.receptor ?? 'dome';
}
