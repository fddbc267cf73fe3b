import type { LaneSize } from './lane-size.ts';
import { lanesFor, type Stretch } from './lanes.ts';
import type { MixedReading } from './mixed-reading.ts';
import { beyond, type RuleScale } from './rule-scale.ts';

export const NEEDLE_WIDTH_px = 12;
/** Between a needle and its label. */
const GAP_px = 6;
/** Room on a needle's other side, for the initials of its lamps. */
const INITIALS_px = 18;
const MOST_LABEL_px = 208;
/** Between them stands a number, or a number over its stops. */
const SHORT_LABEL_px = { numbers: 38, bare: 26 };
/** A touch target at least. */
const LEAST_STRETCH_px = 44;

/** Labels with the marks' names; with their numbers and stops where there are too many needles for names; with numbers alone. */
export type LabelForm = 'names' | 'numbers' | 'bare';

export interface PlacedNeedle {
  readonly mixed: MixedReading;
  /** From 1, as in the list of readings. */
  readonly number: number;
  readonly x_px: number;
  /** Where it stands beyond the ruler's ends; no light is beyond the lower one. */
  readonly beyond: -1 | 0 | 1;
  /** What the ± spans; null where there is none to draw. */
  readonly band_px: readonly [from: number, to: number] | null;
  readonly lane: number;
  readonly form: LabelForm;
  /** On which side of the needle its label stands. */
  readonly side: 'left' | 'right';
  readonly from_px: number;
  readonly to_px: number;
}

export interface RuleLayout {
  readonly needles: readonly PlacedNeedle[];
  readonly lanes: number;
  readonly form: LabelForm;
}

export interface LayoutRequest {
  readonly readings: readonly MixedReading[];
  readonly scale: RuleScale;
  /** Width of a needle's label with its name, px. */
  readonly labelWidth_px: (mixed: MixedReading) => number;
  /** How many lanes are in sight without scrolling. */
  readonly lanesInSight: number;
  /** While something moves, needles keep their lanes and labels their form and side. */
  readonly moving: boolean;
  readonly before: RuleLayout | null;
}

/**
 * Where every needle and label goes: none covers another's label or ±, and none leaves the ruler. Labels stand outward, to
 * the left in the lower half of the needles and to the right in the upper, which leaves them the most room.
 */
export function layoutRule(request: LayoutRequest): RuleLayout {
  const { readings, scale, before, lanesInSight, moving } = request;
  const middle_px = median(readings.map(({ stops }) => scale.x_px(stops)));
  const inForm = (form: LabelForm): RuleLayout => {
    const held = before?.form === form ? before.needles : [];
    const sides = new Map(moving ? held.map(({ mixed, side }) => [mixed.mark.id, side]) : []);
    const placed = readings.map((mixed, i) => {
      const outward = scale.x_px(mixed.stops) < middle_px ? 'left' : 'right';
      return placedAt(mixed, i + 1, form, sides.get(mixed.mark.id) ?? outward, request);
    });
    const { laneOf, count } = lanesFor(
      placed.map(({ mixed, from_px, to_px }): Stretch => ({ id: mixed.mark.id, from_px, to_px })),
      new Map(held.map(({ mixed, lane }) => [mixed.mark.id, lane])),
      moving,
    );
    const needles = placed.map((needle) => ({ ...needle, lane: laneOf.get(needle.mixed.mark.id)! }));
    return { needles, lanes: count, form };
  };
  if (moving && before) return inForm(before.form);
  // Where even the shortest labels leave lanes out of sight, the lanes scroll, and stops are worth their room.
  const forms = (['names', 'numbers', 'bare'] as const).map(inForm);
  return forms.find(({ lanes }) => lanes <= lanesInSight) ?? forms[1]!;
}

function placedAt(
  mixed: MixedReading,
  number: number,
  form: LabelForm,
  wantedSide: PlacedNeedle['side'],
  { scale, labelWidth_px }: LayoutRequest,
): Omit<PlacedNeedle, 'lane'> {
  const { stops, plusMinus_stops } = mixed;
  const x_px = scale.x_px(stops);
  const off = beyond(stops, scale);
  const half = NEEDLE_WIDTH_px / 2;
  const label_px =
    half + GAP_px + (form === 'names' ? Math.min(MOST_LABEL_px, labelWidth_px(mixed)) : SHORT_LABEL_px[form]);
  const other_px = half + (form === 'names' ? INITIALS_px : 2);
  const fits = { left: x_px >= label_px, right: x_px + label_px <= scale.width_px };
  const otherSide = wantedSide === 'left' ? 'right' : 'left';
  const side = fits[wantedSide] || !fits[otherSide] ? wantedSide : otherSide;
  const [left_px, right_px] = side === 'right' ? [other_px, label_px] : [label_px, other_px];
  const band_px =
    off === 0 && plusMinus_stops !== null && Number.isFinite(stops)
      ? ([scale.x_px(stops - plusMinus_stops), scale.x_px(stops + plusMinus_stops)] as const)
      : null;
  const from_px = Math.min(x_px - left_px, band_px?.[0] ?? x_px);
  const to_px = Math.max(x_px + right_px, band_px?.[1] ?? x_px, from_px + LEAST_STRETCH_px);
  return { mixed, number, x_px, beyond: off, band_px, form, side, from_px, to_px };
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

/** Top of a needle, from the top of a plot of this height; lane 0 stands on the ruler. */
export function needleTop_px(lane: number, height_px: number, { lane_px, needle_px }: LaneSize): number {
  return height_px - (lane + 1) * lane_px + (lane_px - needle_px) / 2;
}
