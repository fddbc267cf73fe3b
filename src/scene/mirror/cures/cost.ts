import type { LightModel } from '../../../core/light-model/light-model.ts';
import type { Vec3 } from '../../../core/math/vec3.ts';
import { DIRECT_DEFAULTS, directLight } from '../../../core/transport/direct.ts';
import { meterPoint, meterScene } from '../../meter/meter-scene.ts';
import type { Camera } from '../../schema/camera.ts';
import type { SceneDocument } from '../../schema/document.ts';
import { lampMovedTo, withLampAt } from '../moved.ts';

/** By how much the whole reading of a mark changes, straight light only, for the mark's own receptor. */
export interface MarkChange {
  readonly mark: string;
  readonly name: string;
  readonly change_stops: number;
}

/** What a change costs: at the mark that changes most, and at the mark that this lamp lights most. */
export interface MarkCost {
  readonly worst: MarkChange;
  readonly brightest: MarkChange;
}

/** Straight light to so many stops, before and after by the same points of each lamp's face. */
const ERROR_stops = 0.01;
/** Darker by so much is dark. */
const DARK_stops = -20;

/** One mark's straight light as the scene is, and what becomes of it when a lamp stands elsewhere, aim kept. */
export interface LitMark {
  readonly mark: string;
  readonly name: string;
  /** What each lamp gives it, in the order of the model's lamps. */
  readonly lamps_lx: readonly number[];
  readonly change_stops: (lampId: string, to_m: Vec3, error_stops?: number) => number;
}

/** Marks that have any light. */
export function litMarks(document: SceneDocument, model: LightModel, camera: Camera): readonly LitMark[] {
  const options = { camera: camera.id, light: 'direct', error_stops: ERROR_stops } as const;
  const { marks } = meterScene(document, model, options);
  return marks.flatMap((reading, i) => {
    if (reading.illuminance_lx <= 0) return [];
    const mark = document.marks![i]!;
    const lx = (part: { flat_lx: number; dome_lx: number }) =>
      reading.receptor === 'flat' ? part.flat_lx : part.dome_lx;
    const lamps_lx = reading.lamps.map((lamp) => lamp.illuminance_lx);
    const change_stops = (lampId: string, to_m: Vec3, error_stops = ERROR_stops) => {
      const moved = lampMovedTo(model, document, lampId, to_m);
      const lamp = moved.lamps.findIndex((l) => l.id === lampId);
      // A receptor that faces the lamp turns with it, and so sees all the others otherwise.
      const turned = mark.facing === `lamp:${lampId}`;
      const light = directLight(
        turned ? moved : { ...moved, lamps: [moved.lamps[lamp]!], sky: null },
        meterPoint(withLampAt(document, lampId, to_m), mark, camera),
        { receptor: reading.receptor, error_stops, maxSamples: DIRECT_DEFAULTS.maxSamples },
      );
      const found_lx = light.lamps.reduce((sum, part) => sum + lx(part), lx(light.sky));
      const after_lx = turned ? found_lx : reading.illuminance_lx - lamps_lx[lamp]! + found_lx;
      return Math.log2(Math.max(after_lx / reading.illuminance_lx, 2 ** DARK_stops));
    };
    return [{ mark: reading.id, name: reading.name, lamps_lx, change_stops }];
  });
}

/** The mark that a lamp lights most. */
export function brightestOf(marks: readonly LitMark[], lamp: number): LitMark | undefined {
  return marks.reduce<LitMark | undefined>(
    (best, mark) => (best && best.lamps_lx[lamp]! >= mark.lamps_lx[lamp]! ? best : mark),
    undefined,
  );
}

/** The cost of standing a lamp (by index in the model) elsewhere; null where there is no lit mark. */
export function costOf(marks: readonly LitMark[], lamp: number, lampId: string, to_m: Vec3): MarkCost | null {
  const changes = marks.map(({ mark, name, change_stops }) => ({
    mark,
    name,
    change_stops: change_stops(lampId, to_m),
  }));
  const brightest = brightestOf(marks, lamp);
  const [first] = changes;
  if (!first || !brightest) return null;
  return {
    worst: changes.reduce((a, b) => (Math.abs(b.change_stops) > Math.abs(a.change_stops) ? b : a), first),
    brightest: changes[marks.indexOf(brightest)]!,
  };
}
