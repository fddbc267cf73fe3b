import { onlyLamps } from '../../core/balance/only-lamps.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { type Reading as MeterReading, readMeter } from '../../core/meter/meter.ts';
import type { ReadingModel } from '../../core/readings/fit-readings.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import { newTracer, type Tracer } from '../../core/transport/tracer.ts';
import { calibrationOf, chosenCamera, exposureOf } from '../camera/scene-camera.ts';
import { meterPoint } from '../meter/meter-scene.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Mark, Reading } from '../schema/mark.ts';
import { sceneAsTaken } from './as-taken.ts';

/** Of each prediction, numerically: small beside what a meter may be off by. */
const ERROR_stops = 0.05;

function markOfReading(document: SceneDocument, reading: Reading): Mark {
  return document.marks!.find((mark) => mark.id === reading.mark)!;
}

export function receptorOfReading(document: SceneDocument, reading: Reading): Receptor {
  return reading.receptor ?? markOfReading(document, reading).receptor ?? 'dome';
}

/** The scene as it stood for a reading, its lamps alight, and its light. */
export interface SceneOfReading {
  readonly document: SceneDocument;
  readonly model: LightModel;
}

/** For each reading, the scene that it was taken in. Readings for which all lamps stood alike share one. */
export function scenesOfReadings(
  document: SceneDocument,
  readings: readonly Reading[],
  compile: (document: SceneDocument) => LightModel,
): readonly SceneOfReading[] {
  const lit = litFor(document, readings);
  const scenes = new Map<string, SceneOfReading>();
  return readings.map(({ taken = [] }) => {
    const key = JSON.stringify(taken);
    let scene = scenes.get(key);
    if (!scene) {
      const stood = sceneAsTaken(lit, taken);
      scene = { document: stood, model: compile(stood) };
      scenes.set(key, scene);
    }
    return scene;
  });
}

/** The scene with every lamp on that some reading was taken with. */
function litFor(document: SceneDocument, readings: readonly Reading[]): SceneDocument {
  const lit = new Set(readings.flatMap((reading) => reading.lamps));
  return {
    ...document,
    lamps: (document.lamps ?? []).map((lamp) =>
      lamp.on === false && lit.has(lamp.id) ? { ...lamp, on: true } : lamp,
    ),
  };
}

/**
 * What each reading should be by the plan, with all light, and how it is made up. `extinction_per_m`: in such haze instead
 * of the planned one.
 */
export function predictReadings(
  readings: readonly Reading[],
  scenes: readonly SceneOfReading[],
  extinction_per_m?: number,
): readonly ReadingModel[] {
  const known = new Map<SceneOfReading, Known>();
  return readings.map((reading, k) => {
    const scene = scenes[k]!;
    let knownHere = known.get(scene);
    if (!knownHere) {
      knownHere = { model: inHaze(scene.model, extinction_per_m), tracers: new Map(), predicted: new Map() };
      known.set(scene, knownHere);
    }
    const predicted = predictionIn(scene.document, knownHere, reading);
    return {
      measured_lx: reading.illuminance_lx,
      sky_lx: predicted.sky_lx,
      lamps: predicted.lamps.flatMap((lamp, i) =>
        lamp.illuminance_lx > 0
          ? [
              {
                lamp: i,
                attenuated_lx: lamp.direct_lx + lamp.bounce_lx,
                glow_lx: lamp.haze_lx,
                hazed_m: lamp.hazed_m,
              },
            ]
          : [],
      ),
    };
  });
}

/** What readings in one scene may take over from each other. */
interface Known {
  readonly model: LightModel;
  /** By lamps alight. */
  readonly tracers: Map<string, Tracer>;
  readonly predicted: Map<string, MeterReading>;
}

function predictionIn(document: SceneDocument, known: Known, reading: Reading): MeterReading {
  const lit = [...new Set(reading.lamps)].sort();
  const lampsKey = lit.join(' ');
  let tracer = known.tracers.get(lampsKey);
  if (!tracer) {
    tracer = newTracer(onlyLamps(known.model, new Set(lit), true));
    known.tracers.set(lampsKey, tracer);
  }
  const receptor = receptorOfReading(document, reading);
  const key = `${reading.mark} ${receptor} ${lampsKey}`;
  const predicted = known.predicted.get(key) ?? prediction(document, tracer, reading, receptor);
  known.predicted.set(key, predicted);
  return predicted;
}

function inHaze(model: LightModel, extinction_per_m: number | undefined): LightModel {
  if (!model.haze || extinction_per_m === undefined) return model;
  return { ...model, haze: { ...model.haze, extinction_per_m } };
}

function prediction(
  document: SceneDocument,
  tracer: Tracer,
  reading: Reading,
  receptor: Receptor,
): MeterReading {
  const camera = chosenCamera(document);
  const meter = meterPoint(document, markOfReading(document, reading), camera);
  return readMeter(tracer.model, tracer, meter, receptor, {
    exposure: exposureOf(camera),
    calibration: calibrationOf(document),
    error_stops: ERROR_stops,
  });
}
