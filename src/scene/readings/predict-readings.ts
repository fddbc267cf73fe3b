import { onlyLamps } from '../../core/balance/only-lamps.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { type Reading as MeterReading, readMeter } from '../../core/meter/meter.ts';
import type { ReadingModel } from '../../core/readings/fit-readings.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import { newTracer, type Tracer } from '../../core/transport/tracer.ts';
import { calibrationOf, chosenCamera, exposureOf } from '../camera/scene-camera.ts';
import { meterPoint } from '../meter/meter-scene.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Mark, Reading } from '../schema/mark.ts';

/** Of each prediction, numerically: small beside what a meter may be off by. */
const ERROR_stops = 0.05;

/** The scene with every lamp on that some reading was taken with. */
export function litForReadings(document: SceneDocument): SceneDocument {
  const lit = new Set((document.readings ?? []).flatMap((reading) => reading.lamps));
  if (lit.size === 0) return document;
  return {
    ...document,
    lamps: (document.lamps ?? []).map((lamp) =>
      lamp.on === false && lit.has(lamp.id) ? { ...lamp, on: true } : lamp,
    ),
  };
}

export function markOfReading(document: SceneDocument, reading: Reading): Mark {
  return document.marks!.find((mark) => mark.id === reading.mark)!;
}

export function receptorOfReading(document: SceneDocument, reading: Reading): Receptor {
  return reading.receptor ?? markOfReading(document, reading).receptor ?? 'dome';
}

/** What each reading should be by the plan, with all light, and how it is made up. `model`: of `litForReadings`. */
export function predictReadings(
  document: SceneDocument,
  model: LightModel,
  readings: readonly Reading[],
): readonly ReadingModel[] {
  const camera = chosenCamera(document);
  const known = new Map<string, MeterReading>();
  const tracers = new Map<string, Tracer>();
  return readings.map((reading) => {
    const lit = [...new Set(reading.lamps)].sort();
    const lampsKey = lit.join(' ');
    let tracer = tracers.get(lampsKey);
    if (!tracer) {
      tracer = newTracer(onlyLamps(model, new Set(lit), true));
      tracers.set(lampsKey, tracer);
    }
    const receptor = receptorOfReading(document, reading);
    const key = `${reading.mark} ${receptor} ${lampsKey}`;
    const predicted = known.get(key) ?? prediction(document, tracer, camera, reading, receptor);
    known.set(key, predicted);
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

function prediction(
  document: SceneDocument,
  tracer: Tracer,
  camera: Camera,
  reading: Reading,
  receptor: Receptor,
): MeterReading {
  const meter = meterPoint(document, markOfReading(document, reading), camera);
  return readMeter(tracer.model, tracer, meter, receptor, {
    exposure: exposureOf(camera),
    calibration: calibrationOf(document),
    error_stops: ERROR_stops,
  });
}
