import type { LaneSize } from './lane-size.ts';
import { NEEDLE_WIDTH_px, needleTop_px, type PlacedNeedle } from './rule-layout.ts';
import { type Piece, stackOf } from './stack.ts';

/**
 * The needles as few paths: one for all pieces of one lamp, one for all outlines and so on, so that a drag redraws a handful
 * of elements however many marks and lamps there are.
 */
export interface RulePaths {
  readonly bands: string;
  readonly outlines: string;
  /** Needles beyond the ruler's ends, and marks without light. */
  readonly arrows: string;
  readonly pieces: readonly { readonly of: Piece['of']; readonly d: string }[];
  /** Which lamp is which piece, beside needles that have the room. */
  readonly initials: readonly {
    readonly of: string;
    readonly x_px: number;
    readonly y_px: number;
    readonly anchor: 'start' | 'end';
  }[];
}

/** A piece under this height has no room for its lamp's initial. */
const LEAST_INITIAL_px = 9;
const HALF_px = NEEDLE_WIDTH_px / 2;

export function rulePaths(needles: readonly PlacedNeedle[], height_px: number, size: LaneSize): RulePaths {
  const { needle_px } = size;
  const bands: string[] = [];
  const outlines: string[] = [];
  const arrows: string[] = [];
  const pieces = new Map<Piece['of'], string[]>();
  const initials: RulePaths['initials'][number][] = [];

  for (const { mixed, x_px, lane, band_px, beyond, form, side } of needles) {
    const top = needleTop_px(lane, height_px, size);
    const foot = top + needle_px;
    const left = x_px - HALF_px;
    if (band_px) {
      const y = top + needle_px / 2 - BAND_px / 2;
      bands.push(rect(band_px[0], y, band_px[1] - band_px[0], BAND_px));
    }
    if (beyond !== 0) {
      const tip = x_px + beyond * (HALF_px + 5);
      const mid = top + needle_px / 2;
      arrows.push(`M${n(tip)} ${n(mid)}l${-8 * beyond}-7v14z`);
    }
    outlines.push(rect(left, top, NEEDLE_WIDTH_px, needle_px));
    for (const { of, from_px, to_px } of stackOf(mixed.parts, needle_px)) {
      const list = pieces.get(of) ?? [];
      list.push(rect(left, foot - to_px, NEEDLE_WIDTH_px, to_px - from_px));
      pieces.set(of, list);
      if (form === 'names' && typeof of === 'string' && to_px - from_px >= LEAST_INITIAL_px) {
        const away = side === 'right' ? -1 : 1;
        initials.push({
          of,
          x_px: x_px + away * (HALF_px + 3),
          y_px: foot - (from_px + to_px) / 2,
          anchor: side === 'right' ? 'end' : 'start',
        });
      }
    }
  }
  return {
    bands: bands.join(''),
    outlines: outlines.join(''),
    arrows: arrows.join(''),
    pieces: [...pieces].map(([of, list]) => ({ of, d: list.join('') })),
    initials,
  };
}

const BAND_px = 22;
const NOTCH_px = 6;

/** From each needle down to the ruler. Among many they would run together: there each leaves a notch on the ruler alone. */
export function stemsPath(needles: readonly PlacedNeedle[], height_px: number, size: LaneSize): string {
  return needles
    .map(({ x_px, lane, form }) => {
      const from =
        form === 'names' ? needleTop_px(lane, height_px, size) + size.needle_px : height_px - NOTCH_px;
      return `M${n(x_px)} ${n(from)}V${n(height_px)}`;
    })
    .join('');
}

/** Along the foot of each mark's lane: from its needle to where it is wanted or proposed, with an arrowhead there. */
export function shiftPath(
  needles: readonly PlacedNeedle[],
  to_px: ReadonlyMap<string, number>,
  height_px: number,
  { lane_px }: LaneSize,
): string {
  return needles
    .flatMap(({ mixed, lane, x_px }) => {
      const to = to_px.get(mixed.mark.id);
      if (to === undefined) return [];
      const y = height_px - lane * lane_px - FOOT_px;
      const way = Math.sign(to - x_px);
      if (Math.abs(to - x_px) < HEAD_px) return [`M${n(to)} ${n(y - 4)}v8`];
      return [
        `M${n(x_px)} ${n(y)}H${n(to)}M${n(to - HEAD_px * way)} ${n(y - 4)}L${n(to)} ${n(y)}l${-HEAD_px * way} 4`,
      ];
    })
    .join('');
}

/** Between a lane's arrow and its lower edge. */
const FOOT_px = 4;
const HEAD_px = 6;

function rect(x: number, y: number, width: number, height: number): string {
  return `M${n(x)} ${n(y)}h${n(width)}v${n(height)}h${n(-width)}z`;
}

/** A tenth of a pixel is enough. */
function n(value: number): number {
  return Math.round(value * 10) / 10;
}
