import type { Cure, GlintCures } from '../scene/mirror/cures/cures.ts';
import type { ChangeKind } from '../scene/mirror/cures/moves.ts';
import { signed } from './signed-text.ts';
import { metresText } from './tape-text.ts';

/** So many ways out are enough to choose from. */
const MOST = 4;

/** What is worth choosing from: cures that bring nothing new, else some that do, and one that only shifts the glint. */
export function curesToChooseFrom({ cures, partial }: GlintCures) {
  const clear = cures.filter(({ appears }) => appears.length === 0).slice(0, MOST);
  return { clear, trade: clear.length > 0 ? [] : cures.slice(0, 2), shift: partial.slice(0, 1) };
}

export const NO_CURE = 'No single move within reach clears it: flag it, change the frame or move two things.';

/** How to get rid of one glint, each sentence ready to print; cheapest first. */
export function cureWords(found: GlintCures, nameOf: (id: string) => string): readonly string[] {
  const { clear, trade, shift } = curesToChooseFrom(found);
  return [
    ...(clear.length > 0 ? [`Clear if: ${clear.map(changeText).join('; ')}.`] : []),
    ...trade.map((cure) => `Clear if: ${changeText(cure)}, but then ${appearsText(cure, nameOf)}.`),
    ...(found.cures.length === 0 ? [NO_CURE] : []),
    ...shift.map(
      (cure) => `Off this surface only: ${changeText(cure)}, but then ${leavesText(cure, found.glint.side)}.`,
    ),
  ];
}

/** Tapes are read to the decimetre in the dark; the next one up that still does is as good as the centimetre that just does. */
export function tapedBy_m({ by_m, until_m }: Cure): number {
  return Math.min(Math.ceil(10 * by_m - 1e-6) / 10, until_m);
}

function changeText(cure: Cure): string {
  return `${movedText(cure)} (${costOfCure(cure)})`;
}

/** What is moved, how far, and where it stops doing: "stand down 1.1 m, to 1.5 m". */
export function movedText(cure: Cure): string {
  const { change, by_m, until_m, reach_m, height_m } = cure;
  const taped_m = tapedBy_m(cure);
  const more_m = change.endsWith('-down') ? by_m - taped_m : taped_m - by_m;
  const moved = MOVED[change](metresText(taped_m), metresText(height_m + more_m));
  const end = until_m < reach_m - 0.02 ? `, ${endText(cure)}` : '';
  return `${moved}${end}`;
}

/** What it costs in light: "−0.1 stop at Quay between shafts". */
export function costOfCure({ change, cost_stops, cost }: Cure): string {
  return costText(change, cost_stops, cost?.worst.name);
}

/** Where it stops doing: it burns again, or something is in the way. */
function endText({ change, by_m, until_m, height_m }: Cure): string {
  if (change.endsWith('-up')) return `not above ${metresText(height_m + until_m - by_m)}`;
  if (change.endsWith('-down')) return `not below ${metresText(height_m - until_m + by_m)}`;
  return `not past ${metresText(until_m)}`;
}

/** What it leaves burning. Where a wall turns into its rounded edge both go by the same name. */
export function leavesText({ leaves }: Cure, side: string | null): string {
  const [brightest] = leaves;
  const elsewhere = brightest?.side && brightest.side !== side;
  const where = elsewhere ? `its ${brightest.side}` : 'another part of it';
  return `${where} carries ${signed(brightest?.stops ?? 0, 1)} stops`;
}

function costText(change: ChangeKind, cost_stops: number | null, mark: string | undefined): string {
  if (change.startsWith('camera')) return 'another picture, same light';
  if (cost_stops === null) return 'no marks to cost it at';
  const stops = signed(cost_stops, 1);
  const unit = Math.abs(cost_stops) < 1.05 ? 'stop' : 'stops';
  return stops === '0' ? 'no light lost' : `${stops} ${unit}${mark === undefined ? '' : ` at ${mark}`}`;
}

/** What would mirror instead. */
export function appearsText({ appears }: Cure, nameOf: (id: string) => string): string {
  return appears.map(({ lamp, solid }) => `${nameOf(lamp)} mirrors in ${nameOf(solid)}`).join(' and ');
}

const MOVED: Readonly<Record<ChangeKind, (by: string, height: string) => string>> = {
  'lamp-up': (by, height) => `stand up ${by}, to ${height}`,
  'lamp-down': (by, height) => `stand down ${by}, to ${height}`,
  'lamp-back': (by) => `${by} further back`,
  'lamp-forward': (by) => `${by} nearer`,
  'lamp-out': (by) => `${by} out from the side`,
  'lamp-in': (by) => `${by} in toward the side`,
  'lamp-along-away': (by) => `${by} along the side, away from the camera`,
  'lamp-along-toward': (by) => `${by} along the side, toward the camera`,
  'lamp-left': (by) => `${by} to the left, as seen from behind the lamp`,
  'lamp-right': (by) => `${by} to the right, as seen from behind the lamp`,
  'camera-up': (by, height) => `camera up ${by}, to ${height}`,
  'camera-down': (by, height) => `camera down ${by}, to ${height}`,
  'camera-back': (by) => `camera back ${by}`,
  'camera-left': (by) => `camera left ${by}`,
  'camera-right': (by) => `camera right ${by}`,
};
