import type { LightModel } from '../../../src/core/light-model/light-model.ts';
import { readMeter } from '../../../src/core/meter/meter.ts';
import { newTracer } from '../../../src/core/transport/tracer.ts';
import { previewScene } from '../../../src/preview/renderer/preview-scene.ts';
import { calibrationOf, chosenCamera, exposureOf } from '../../../src/scene/camera/scene-camera.ts';
import { meterPoint } from '../../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import type { Frames } from './frames.ts';
import { copiesOf, readingsOf } from './held-meters.ts';

/** Pixels that hold the same meter. */
const COPIES = 128;
const CORE_ERROR_STOPS = 0.05;

/** How a meter at a mark reads on the card against the core, and the standard error of that. */
export interface MeterDifference {
  readonly mark: string;
  readonly stops: number;
  readonly noise_stops: number;
}

/** All marks of a scene, but for one that is named. */
export async function metersAtMarks(
  frames: Frames,
  document: SceneDocument,
  model: LightModel,
  {
    samples,
    apart,
    but,
  }: { readonly samples: number; readonly apart?: boolean; readonly but?: string | undefined },
): Promise<{ readonly differences: readonly MeterDifference[]; readonly lost: number }> {
  const camera = chosenCamera(document);
  const marks = (document.marks ?? []).filter(({ id }) => id !== but);
  const meters = marks.map((mark) => ({
    point: meterPoint(document, mark, camera),
    receptor: mark.receptor ?? 'dome',
  }));
  const held = { meters: copiesOf(meters, COPIES) };
  const { rgb, lost } = await frames.render(previewScene(model), held, samples, apart);
  const tracer = newTracer(model);
  const options = {
    exposure: exposureOf(camera),
    calibration: calibrationOf(document),
    error_stops: CORE_ERROR_STOPS,
  };
  const differences = readingsOf(rgb, COPIES).map(({ mean_lx, error_lx }, i) => {
    const core = readMeter(model, tracer, meters[i]!.point, meters[i]!.receptor, options);
    // The core's stated error is a 95 % interval, two standard errors.
    const noise_stops = Math.hypot((error_lx / mean_lx) * Math.LOG2E, core.uncertainty.numerical_stops / 2);
    return { mark: marks[i]!.id, stops: Math.log2(mean_lx / core.illuminance_lx), noise_stops };
  });
  return { differences, lost };
}
