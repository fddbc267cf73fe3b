import type { ThinLens } from '../../core/camera/thin-lens.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import type { MeterPoint } from '../../core/transport/source-sample.ts';
import type { Texels } from '../pack/texels.ts';
import { type Accumulation, newAccumulation } from './accumulation.ts';

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

/** A coarse frame has this many times fewer pixels across and down, and is not made for frames narrower than that many pixels. */
const COARSENESS = 4;
const LEAST_FOR_COARSE_px = 128;

/** A camera's frame, or part of one. Parts have no coarse frame: nobody watches them. */
export function cameraView(lens: ThinLens, width: number, height: number, part?: PicturePart): View {
  const coarse =
    part || width < LEAST_FOR_COARSE_px
      ? null
      : newAccumulation(Math.ceil(width / COARSENESS), Math.ceil(height / COARSENESS));
  return {
    lens,
    meters: null,
    part: part ?? { wholeWidth: width, wholeHeight: height, x: 0, y: 0 },
    coarse,
    whole: newAccumulation(width, height),
  };
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

/** What the next tile belongs to: after a change, a coarse frame first. */
export function inTheMaking({ coarse, whole }: View): Accumulation {
  return coarse && coarse.samples === 0 && whole.samples === 0 ? coarse : whole;
}

/** The best there is so far. */
export function readiest(view: View | null): Accumulation | undefined {
  return accumulationsOf(view).find(({ samples, targets }) => samples > 0 && targets);
}
