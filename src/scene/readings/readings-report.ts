import type { LightModel } from '../../core/light-model/light-model.ts';
import { compileScene } from '../compile/compile-scene.ts';
import type { SceneFiles } from '../files/scene-files.ts';
import { meterScene } from '../meter/meter-scene.ts';
import type { SceneDocument } from '../schema/document.ts';
import { correctedModel } from './corrected-model.ts';
import {
  type Corrections,
  correctionsFrom,
  type HazeCorrection,
  type LampCorrection,
  type ReadingResidual,
} from './corrections.ts';
import { type NextReading, nextReading } from './next-reading.ts';
import { planCovariance } from './plan-trust.ts';

/** The answer of `keyfall readings --json`, field by field. */
export interface ReadingsReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly readings: readonly ReadingResidual[];
  readonly unused: Corrections['unused'];
  readonly lamps: readonly LampCorrection[];
  readonly haze: HazeCorrection | null;
  readonly together: Corrections['together'];
  readonly byHand: Corrections['byHand'];
  /** Root mean square of the readings' residuals, stops, by the plan and after the corrections; null without readings. */
  readonly fit: { readonly planned_stops: number; readonly corrected_stops: number } | null;
  readonly next: NextReading | null;
}

/** Readings belong to the base scene: `document` is as the file has it, before any setup. */
export function readingsReport(document: SceneDocument, files: SceneFiles): ReadingsReport {
  const corrections = correctionsFrom(document, files);
  const model = correctedModel(compileScene(document, files), document, corrections);
  const readings = corrections?.readings ?? [];
  return {
    keyfall: 1,
    title: document.title,
    readings,
    unused: corrections?.unused ?? [],
    lamps: corrections?.lamps ?? [],
    haze: corrections?.haze ?? null,
    together: corrections?.together ?? [],
    byHand: corrections?.byHand ?? null,
    fit:
      readings.length > 0
        ? {
            planned_stops: rms(readings.map((reading) => reading.plannedResidual_stops)),
            corrected_stops: rms(readings.map((reading) => reading.residual_stops)),
          }
        : null,
    next: next(document, model, corrections),
  };
}

/** Rough numbers are enough to say where to walk. */
const ERROR_stops = 0.1;

function next(
  document: SceneDocument,
  model: LightModel,
  corrections: Corrections | null,
): NextReading | null {
  if (!document.marks?.length || !document.cameras?.length) return null;
  const { marks } = meterScene(document, model, { light: 'all', error_stops: ERROR_stops, corrections });
  const planned = planCovariance(model.lamps);
  const known = corrections ?? { planned, covariance: planned };
  return nextReading(document, model, marks, known);
}

function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}
