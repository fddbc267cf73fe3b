import type { ThinLens } from '../camera/thin-lens.ts';
import type { Tracer } from '../transport/tracer.ts';
import {
  type CameraSight,
  type Contrast,
  contrastOf,
  type EdgeSide,
  meanContrastError_stops,
} from './contrast.ts';
import type { EdgeCell } from './edge-cell.ts';
import { addEdgePaths, type EdgeLight, newEdgeLight, type Side } from './edge-light.ts';
import type { Stretch } from './stretch.ts';

/** A cell with the light read on either side of it. */
export interface EdgeReading {
  readonly cell: EdgeCell;
  readonly inside: EdgeLight;
  readonly outside: EdgeLight;
  /** Lights that share glow with this cell's, itself among them. */
  readonly nearInside: readonly EdgeLight[];
  readonly nearOutside: readonly EdgeLight[];
}

/** A figure before a camera. */
export interface OutlineView {
  readonly tracer: Tracer;
  readonly lens: ThinLens;
  /** Index of the figure among the model's owners. */
  readonly figure: number;
}

/** Per batch and cell, where a side is given up. */
const MOST_PATHS = 256;
/** What is not the worst stretch need be known only so well, against what was asked. */
const OTHERS = 3;
/** A stretch is taken for a possible worst while it is no further from the least than so much of their intervals. */
const LIKELY = 0.1;
/** An error of a tenth of the contrast is as good as none: nobody tells six stops from six and a half. */
const SHARE_OF_CONTRAST = 0.1;
/** A side is worked on while it has at least this share of the squared error. */
const WORTH_WORK = 0.25;

/**
 * Reads both sides of every cell until three things are known to `error_stops` (95 %) or to a tenth of themselves: the mean
 * contrast of the outline, and the contrast of every stretch that may yet be the worst; of the others to OTHERS times
 * that. Every round adds half as many paths again where an error is too large, so few go where the answer is plain.
 */
export function readOutline(
  view: OutlineView,
  cells: readonly EdgeCell[],
  stretches: readonly Stretch<unknown>[],
  sight: CameraSight,
  error_stops: number,
): EdgeReading[] {
  const readings = newReadings(view, cells);
  const members = stretches.map((stretch) => stretch.cells.map((i) => readings[i]!));
  for (const own of members) for (const side of SIDES) addPaths(view, own, side);
  for (;;) {
    const contrasts = members.map((own) => pieceContrast(own, sight));
    const mean = contrasts.reduce((sum, { stops }) => sum + Math.abs(stops), 0) / contrasts.length;
    const meanError = meanContrastError_stops(members.map(sidesOf), sight);
    const whole = meanError > Math.max(error_stops, SHARE_OF_CONTRAST * mean);
    const sureWorst = Math.min(...contrasts.map((c) => Math.abs(c.stops) + LIKELY * c.numerical_stops));
    let added = false;
    for (const [k, contrast] of contrasts.entries()) {
      const { stops, numerical_stops } = contrast;
      const size = Math.abs(stops);
      const mayBeWorst = size - LIKELY * numerical_stops <= sureWorst;
      const wanted = Math.max((mayBeWorst ? 1 : OTHERS) * error_stops, SHARE_OF_CONTRAST * size);
      if (numerical_stops <= wanted && !whole) continue;
      const worth = WORTH_WORK * numerical_stops ** 2;
      for (const side of SIDES) {
        if (contrast[`${side}_stops`] ** 2 < worth || members[k]![0]![side].next >= MOST_PATHS) continue;
        addPaths(view, members[k]!, side);
        added = true;
      }
    }
    if (!added) return readings;
  }
}

const SIDES = ['inside', 'outside'] as const;

/**
 * The same cells with the light inside read anew in another model of the same shapes, `count` paths a batch; what is
 * outside stays as it was read.
 */
export function rereadInside(
  view: OutlineView,
  readings: readonly EdgeReading[],
  count: number,
): EdgeReading[] {
  const lamps = view.tracer.model.lamps.length;
  const lights = readings.map(({ cell }) => {
    const light = newEdgeLight(lamps);
    addEdgePaths(view.tracer, view.lens, view.figure, cell, 'inside', light, count);
    return light;
  });
  const fresh = new Map(readings.map(({ inside }, i) => [inside, lights[i]!]));
  return readings.map((reading, i) => ({
    ...reading,
    inside: lights[i]!,
    nearInside: reading.nearInside.map((light) => fresh.get(light)!),
  }));
}

/** So many cells to either side share glow: a quarter of the outline in all. */
const NEAR_CELLS = 15;

/** Glow is shared along one line of the outline; of what is behind it, only before the same thing. */
function newReadings({ tracer }: OutlineView, cells: readonly EdgeCell[]): EdgeReading[] {
  const lamps = tracer.model.lamps.length;
  const lights = cells.map(() => ({ inside: newEdgeLight(lamps), outside: newEdgeLight(lamps) }));
  return cells.map((cell, i) => {
    const near = [...cells.keys()].filter((k) => areNear(cell, cells[k]!));
    return {
      cell,
      ...lights[i]!,
      nearInside: near.map((k) => lights[k]!.inside),
      nearOutside: near.filter((k) => cells[k]!.behind === cell.behind).map((k) => lights[k]!.outside),
    };
  });
}

function areNear(a: EdgeCell, b: EdgeCell): boolean {
  const apart = Math.abs(a.index - b.index);
  return a.ring === b.ring && Math.min(apart, a.ofRing - apart) <= NEAR_CELLS;
}

function addPaths({ tracer, lens, figure }: OutlineView, members: readonly EdgeReading[], side: Side): void {
  for (const reading of members) {
    const light = reading[side];
    addEdgePaths(tracer, lens, figure, reading.cell, side, light, Math.max(1, Math.ceil(light.next / 2)));
  }
}

/** The two sides of several cells, each cell with the same weight. */
export function sidesOf(members: readonly EdgeReading[]): {
  readonly inside: EdgeSide;
  readonly outside: EdgeSide;
} {
  return weightedSides(
    members,
    members.map(() => 1),
  );
}

function weightedSides(members: readonly EdgeReading[], weights: readonly number[]) {
  return {
    inside: { lights: members.map((m) => m.inside), near: members.map((m) => m.nearInside), weights },
    outside: { lights: members.map((m) => m.outside), near: members.map((m) => m.nearOutside), weights },
  };
}

/** The contrast of a stretch: of the mean light of its cells. */
export function pieceContrast(members: readonly EdgeReading[], sight: CameraSight): Contrast {
  const { inside, outside } = sidesOf(members);
  return contrastOf(inside, outside, sight);
}

/** The two sides at a cell, its neighbours in the stretch counting half: less noise, and still a fiftieth of the outline. */
export function smoothedSides(
  members: readonly EdgeReading[],
  at: number,
): { readonly inside: EdgeSide; readonly outside: EdgeSide } {
  const near = [at - 1, at, at + 1].filter((k) => k >= 0 && k < members.length);
  return weightedSides(
    near.map((k) => members[k]!),
    near.map((k) => (k === at ? 1 : 0.5)),
  );
}
