import type { ThinLens } from '../../core/camera/thin-lens.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import type { MeterPoint } from '../../core/transport/source-sample.ts';
import type { Texels } from '../pack/texels.ts';
import { type Accumulation, newAccumulation, samplesBySum } from './accumulation.ts';

/** A frame that is part of a larger picture, as when that is too large for the card: pixels, y downward. */
export interface PicturePart {
  readonly wholeWidth: number;
  readonly wholeHeight: number;
  readonly x: number;
  readonly y: number;
}

/** What is being looked at: through a lens, or by meters. */
export interface View {
  readonly lens: ThinLens | null;
  /** Two texels a meter. */
  readonly meters: Texels | null;
  readonly part: PicturePart;
  /** Null where the frame is so small that it is soon there itself. */
  readonly coarse: Accumulation | null;
  readonly whole: Accumulation;
}

export interface HeldMeter {
  readonly point: MeterPoint;
  readonly receptor: Receptor;
}

/** What a sample of a coarse frame may take: while something is moved each picture is one. */
const COARSE_ms = 12;
/** How many times fewer pixels a coarse frame has across and down: where it is not known how fast the machine is; at least. */
const FIRST_COARSENESS = 4;
const LEAST_COARSENESS = 2;
const LEAST_COARSE_WIDTH_px = 48;
/** So many samples of it before the first whole one: a quarter more to wait for that, and something to look at meanwhile. */
const COARSE_SAMPLES = 4;

/** A camera's frame, or part of one. Parts have no coarse frame: nobody watches them. */
export function cameraView(
  lens: ThinLens,
  width: number,
  height: number,
  speed_px_per_ms: number | null,
  part?: PicturePart,
): View {
  return {
    lens,
    meters: null,
    part: part ?? { wholeWidth: width, wholeHeight: height, x: 0, y: 0 },
    coarse: part ? null : coarseFrame(width, height, speed_px_per_ms),
    whole: newAccumulation(width, height),
  };
}

/** Null where the whole frame has hardly more pixels. */
function coarseFrame(width: number, height: number, speed_px_per_ms: number | null): Accumulation | null {
  const wanted =
    speed_px_per_ms === null ? FIRST_COARSENESS : Math.sqrt((width * height) / (COARSE_ms * speed_px_per_ms));
  const coarseness = Math.min(Math.max(wanted, LEAST_COARSENESS), width / LEAST_COARSE_WIDTH_px);
  if (coarseness < LEAST_COARSENESS) return null;
  return newAccumulation(Math.ceil(width / coarseness), Math.ceil(height / coarseness));
}

/** Meters side by side, a pixel each. */
export function meterView(meters: readonly HeldMeter[]): View {
  const texels = meters.flatMap(({ point: { position_m, facing }, receptor }) => [
    ...[...position_m, receptor === 'dome' ? 1 : 0],
    ...[...facing, 0],
  ]);
  const width = Math.max(1, meters.length);
  return {
    lens: null,
    meters: { width: 2 * width, height: 1, data: Float32Array.from(texels) },
    part: { wholeWidth: width, wholeHeight: 1, x: 0, y: 0 },
    coarse: null,
    whole: newAccumulation(width, 1),
  };
}

/** Whether two views are of the same through the same lens, in as many pixels. */
export function sameView(one: View, other: View): boolean {
  const seen = ({ lens, meters, part, whole: { width, height } }: View) =>
    JSON.stringify([lens, meters && Array.from(meters.data), part, width, height]);
  return seen(one) === seen(other);
}

/** The next view with what the one before has on the card, where sizes agree. */
export function takingOver(before: View | null, next: View): View {
  if (!before || (before.lens === null) !== (next.lens === null)) return next;
  const reused = (old: Accumulation | null, now: Accumulation | null) =>
    old && now && old.width === now.width && old.height === now.height ? old : now;
  return { ...next, whole: reused(before.whole, next.whole)!, coarse: reused(before.coarse, next.coarse) };
}

export function accumulationsOf(view: View | null): Accumulation[] {
  return view ? [view.whole, ...(view.coarse ? [view.coarse] : [])] : [];
}

/** What the next tile belongs to: a coarse frame first, of all sums `atWork` that the whole one has nothing of. */
export function inTheMaking({ coarse, whole }: View, atWork: readonly number[]): Accumulation {
  if (!coarse) return whole;
  const wholes = samplesBySum(whole, atWork);
  const coarses = samplesBySum(coarse, atWork);
  const wanting = atWork.some((one, i) => one && wholes[i] === 0 && coarses[i]! < COARSE_SAMPLES);
  return wanting ? coarse : whole;
}

/** A picture of what there is so far: as large as `frame`, each sum of the accumulation that has it. */
export interface Picture {
  readonly frame: Accumulation;
  readonly sums: readonly Accumulation[];
}

/** The best there is of every sum `atWork`; null while one of them has nothing yet. */
export function pictureOf({ coarse, whole }: View, atWork: readonly number[]): Picture | null {
  const wholes = samplesBySum(whole, atWork);
  const coarses = coarse ? samplesBySum(coarse, atWork) : [];
  const sums = atWork.map((one, i) => (!one || wholes[i]! > 0 ? whole : coarses[i]! > 0 ? coarse : null));
  if (sums.includes(null)) return null;
  const frame = atWork.some((one, i) => one && wholes[i]! > 0) ? whole : coarse!;
  return { frame, sums: sums.map((of) => of!).map((of) => (of.targets ? of : frame)) };
}
