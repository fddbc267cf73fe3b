import { hazedLength_m } from '../../core/haze/transmittance.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { distance } from '../../core/math/vec3.ts';
import { quadraticForm } from '../../core/readings/cholesky.ts';
import type { MarkReport } from '../meter/meter-scene.ts';
import type { SceneDocument } from '../schema/document.ts';
import { keptShare, sensitivity } from './known-better.ts';
import { READING_stops } from './plan-trust.ts';

/** The reading, not yet taken, after which the marks would be known best: one lamp alone, somewhere. */
export interface NextReading {
  readonly lamp: string;
  /** At a mark as it stands, or on the lamp's axis, square to it, so far from its face. */
  readonly at: { readonly mark: string; readonly receptor: 'flat' | 'dome' } | { readonly onAxis_m: number };
  /** Root mean square of the marks' input ±, stops: now, and when it has been taken. */
  readonly now_stops: number;
  readonly then_stops: number;
}

interface Known {
  readonly planned: Float64Array;
  readonly covariance: Float64Array;
}

/** Gains too small to be worth a walk in the dark. */
const WORTHWHILE_stops = 0.02;
/** Under this a meter cannot tell one lamp from the night, common practice, no source. */
const LEAST_lx = 1;
/** Candidates at marks: the lamps that give most there. */
const LAMPS_A_MARK = 3;
const MOST_MARKS = 200;

/** Null where nothing is lit, or no single reading is worth it. `marks`: readings with all light, all lamps as planned. */
export function nextReading(
  document: SceneDocument,
  model: LightModel,
  marks: readonly MarkReport[],
  known: Known,
): NextReading | null {
  const looked = marks.filter((mark) => mark.illuminance_lx > 0).slice(0, MOST_MARKS);
  if (looked.length === 0) return null;
  const sigma = model.haze?.extinction_per_m ?? 0;
  const slopes = looked.map((mark) => sensitivity(mark, sigma));
  const inputs = looked.map((mark) => mark.uncertainty.input_stops);
  const holds = slopes[0]!.map(() => true);
  const now = slopes.map((g) => keptShare(g, known, holds));
  const rms = (kept: readonly number[]) =>
    Math.sqrt(
      kept.reduce((sum, share, m) => sum + (inputs[m]! * (share / Math.max(now[m]!, 1e-9))) ** 2, 0) /
        kept.length,
    );
  const now_stops = rms(now);

  let best: NextReading | null = null;
  const consider = (lamp: string, at: NextReading['at'], j: readonly number[]) => {
    const after = { planned: known.planned, covariance: updated(known.covariance, j) };
    const then_stops = rms(slopes.map((g) => keptShare(g, after, holds)));
    if (then_stops < (best?.then_stops ?? now_stops - WORTHWHILE_stops))
      best = { lamp, at, now_stops, then_stops };
  };

  for (const mark of looked) {
    const strongest = mark.lamps
      .map((lamp, i) => ({ ...lamp, i }))
      .filter((lamp) => lamp.illuminance_lx >= LEAST_lx)
      .toSorted((one, other) => other.illuminance_lx - one.illuminance_lx)
      .slice(0, LAMPS_A_MARK);
    for (const lamp of strongest) {
      const alone = { illuminance_lx: lamp.illuminance_lx, haze_lx: lamp.haze_lx, lamps: only(mark, lamp.i) };
      consider(lamp.id, { mark: mark.id, receptor: mark.receptor }, sensitivity(alone, sigma));
    }
  }
  for (const [i, lamp] of model.lamps.entries()) {
    if (lamp.gain === 0) continue;
    const { position_m, aim_m } = document.lamps![i]!;
    const throw_m = distance(position_m, aim_m);
    for (const onAxis_m of [throw_m / 4, throw_m / 2].map((d) => Math.max(1, Math.round(2 * d) / 2))) {
      if (onAxis_m > 0.8 * throw_m) continue;
      const j = new Array<number>(model.lamps.length + 1).fill(0);
      j[i] = 1;
      j[model.lamps.length] = 0 - sigma * hazedOnAxis_m(model, i, onAxis_m);
      consider(lamp.id, { onAxis_m }, j);
    }
  }
  return best;
}

function hazedOnAxis_m({ haze, lamps }: LightModel, index: number, length_m: number): number {
  if (!haze) return 0;
  const { origin_m, a } = lamps[index]!.frame;
  return hazedLength_m(haze, ...origin_m, ...a, length_m);
}

function only(mark: MarkReport, index: number): MarkReport['lamps'] {
  return mark.lamps.map((lamp, i) => (i === index ? lamp : { ...lamp, illuminance_lx: 0 }));
}

/** The covariance after one more reading of slopes j (Kalman): C − C·j·jᵀ·C/(jᵀ·C·j + r²). */
function updated(C: Float64Array, j: readonly number[]): Float64Array {
  const n = j.length;
  const Cj = Float64Array.from({ length: n }, (_, r) =>
    j.reduce((sum, slope, c) => sum + C[r * n + c]! * slope, 0),
  );
  const scale = 1 / (quadraticForm(C, j) + READING_stops ** 2);
  return C.map((value, k) => value - scale * Cj[Math.floor(k / n)]! * Cj[k % n]!);
}
