import { contours } from 'd3-contour';
import { lxFromFc } from '../../../core/units/illuminance.ts';
import type { IlluminanceUnit } from '../../../paperwork/exposure-sheet.ts';
import type { PlanPoint } from '../../../scene/mirror/plan.ts';
import { latticePoint } from '../../../scene/mirror/traced-region.ts';
import type { ContourScale } from '../plan-state.ts';
import type { LightLattice } from './light-lattice.ts';

/** Where a flat cell reads one value. */
export interface IsoLine {
  /** Over the camera's zero. */
  readonly stops: number;
  readonly text: string;
  readonly lines: readonly (readonly PlanPoint[])[];
}

const DARK_stops = -20;
const FROM_stops = -6;
const TO_stops = 8;
const MINUS = '\u2212';

/** Lines of whole stops, or of 1, 2, 5, 10 … lux or footcandles: where they lie between −6 and +8 stops. */
export function isoLines(
  light: LightLattice,
  scale: ContourScale,
  unit: IlluminanceUnit,
): readonly IsoLine[] {
  const { lattice, illuminance_lx, zero_lx } = light;
  const stops = Array.from(illuminance_lx, (lx) => Math.max(DARK_stops, Math.log2(lx / zero_lx)));
  const outlines = contours().size([lattice.columns, lattice.rows]);
  return valuesOf(scale, unit, zero_lx).flatMap(({ at_stops, text }) => {
    const { coordinates } = outlines.contour(stops, at_stops);
    const lines = coordinates
      .flatMap((polygon) =>
        polygon.flatMap((ring) =>
          withoutBorder(
            ring.map(([a, b]): PlanPoint => [a!, b!]),
            lattice,
          ),
        ),
      )
      .map((line) => line.map(([a, b]): PlanPoint => latticePoint(lattice, a - 0.5, b - 0.5)));
    return lines.length > 0 ? [{ stops: at_stops, text, lines }] : [];
  });
}

interface Value {
  readonly at_stops: number;
  readonly text: string;
}

function valuesOf(scale: ContourScale, unit: IlluminanceUnit, zero_lx: number): readonly Value[] {
  if (scale === 'stops')
    return Array.from({ length: TO_stops - FROM_stops + 1 }, (_, i) => {
      const at_stops = FROM_stops + i;
      const sign = at_stops > 0 ? '+' : at_stops < 0 ? MINUS : '';
      return { at_stops, text: `${sign}${Math.abs(at_stops)}` };
    });
  const values: Value[] = [];
  for (let decade = -2; decade <= 6; decade++)
    for (const digit of [1, 2, 5]) {
      const shown = digit * 10 ** decade;
      const at_stops = Math.log2((unit === 'lx' ? shown : lxFromFc(shown)) / zero_lx);
      if (at_stops < FROM_stops || at_stops > TO_stops) continue;
      values.push({ at_stops, text: `${Number(shown.toPrecision(1))} ${unit}` });
    }
  return values;
}

/**
 * Rings go round regions and so along the edge of the lattice too, where no light changes: those stretches are left out.
 * What is left of a ring is one closed line or several open ones.
 */
function withoutBorder(
  ring: readonly PlanPoint[],
  { columns, rows }: LightLattice['lattice'],
): readonly (readonly PlanPoint[])[] {
  const onBorder = ([a, b]: PlanPoint) => a <= 0 || b <= 0 || a >= columns || b >= rows;
  const start = ring.findIndex(onBorder);
  if (start < 0) return [ring];
  // The last point of a ring is its first again.
  const open = ring.slice(0, -1);
  const turned = [...open.slice(start), ...open.slice(0, start)];
  const lines: PlanPoint[][] = [[]];
  for (const point of turned) {
    if (!onBorder(point)) lines.at(-1)!.push(point);
    else if (lines.at(-1)!.length > 0) lines.push([]);
  }
  return lines.filter((line) => line.length > 1);
}
