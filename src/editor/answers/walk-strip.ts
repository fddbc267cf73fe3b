import type { WalkReport, WalkStep } from '../../scene/walk/walk-report.ts';

type Line = readonly (readonly [t_s: number, stops: number])[];

/** A walk as a chart: stops over seconds, and lanes of what happens when. */
export interface WalkStrip {
  readonly from_s: number;
  readonly to_s: number;
  readonly step_s: number;
  /** Whole stops that the chart reaches from and to, and those that have a line. */
  readonly low: number;
  readonly high: number;
  readonly rungs: readonly number[];
  readonly seconds: readonly number[];
  readonly all: Line;
  /** ± of every point of it, of the inputs. */
  readonly input: readonly number[];
  /** The strongest on the walk, each alone, in the stretches where the chart reaches down to it. */
  readonly lamps: readonly LampOnWalk[];
  readonly lanes: readonly Lane[];
}

export interface LampOnWalk {
  readonly id: string;
  readonly stretches: readonly Line[];
  /** Where it is strongest. */
  readonly peak: Line[number];
}

export interface Lane {
  readonly key: string;
  readonly word: string;
  readonly kind: 'frame' | 'shade';
  readonly spans: readonly (readonly [from_s: number, to_s: number])[];
}

/** Darker than this no camera sees it, and the chart would only grow. */
const DARKEST_stops = -8;
const LAMPS_DRAWN = 5;
const LABELS = 8;

export function walkStrip(report: WalkReport): WalkStrip {
  const { steps } = report;
  const from_s = steps[0]!.t_s;
  const to_s = steps.at(-1)!.t_s;
  const shown = (stops: number) => Math.max(DARKEST_stops, stops);
  const all: Line = steps.map(({ t_s, stops }) => [t_s, shown(stops)]);
  const input = steps.map(({ stops, input_stops }) => (stops > DARKEST_stops ? input_stops : 0));
  const edges = all.flatMap(([, stops], i) => [stops - input[i]!, stops + input[i]!]);
  const low = Math.floor(Math.min(-1, ...edges));
  const high = Math.ceil(Math.max(1, ...edges));
  const every = Math.ceil((high - low) / LABELS);
  return {
    from_s,
    to_s,
    step_s: steps.length > 1 ? steps[1]!.t_s - from_s : 1,
    low,
    high,
    rungs: Array.from({ length: high - low + 1 }, (_, i) => low + i).filter((stops) => stops % every === 0),
    seconds: roundSeconds(from_s, to_s),
    all,
    input,
    lamps: strongest(steps).flatMap((id) => lampOnWalk(steps, id, low)),
    lanes: [
      {
        key: 'frame',
        word: 'in frame',
        kind: 'frame',
        spans: report.inFrame.map((span) => [span.from_s, span.to_s] as const),
      },
      ...shadeLanes(report),
    ],
  };
}

function lampOnWalk(steps: readonly WalkStep[], id: string, low: number): LampOnWalk[] {
  const stretches: Line[number][][] = [];
  let open = false;
  for (const { t_s, lamps } of steps) {
    const { stops } = lamps.find((lamp) => lamp.id === id)!;
    const inChart = stops >= low;
    if (inChart && !open) stretches.push([]);
    if (inChart) stretches.at(-1)!.push([t_s, stops]);
    open = inChart;
  }
  const points = stretches.flat();
  if (points.length === 0) return [];
  return [{ id, stretches, peak: points.reduce((most, point) => (point[1] > most[1] ? point : most)) }];
}

/** One for each mark, however often it is shaded. */
function shadeLanes({ shadows }: WalkReport): Lane[] {
  return [...new Set(shadows.map(({ mark }) => mark))].map((mark) => {
    const own = shadows.filter((shadow) => shadow.mark === mark);
    return {
      key: mark,
      word: `shades ${own[0]!.name}`,
      kind: 'shade',
      spans: own.map(({ from_s, to_s }) => [from_s, to_s]),
    };
  });
}

function strongest(steps: readonly WalkStep[]): string[] {
  const most = new Map<string, number>();
  for (const { lamps } of steps)
    for (const { id, dome_lx } of lamps) most.set(id, Math.max(most.get(id) ?? 0, dome_lx));
  return [...most]
    .filter(([, lx]) => lx > 0)
    .sort((a, b) => b[1] - a[1])
    .slice(0, LAMPS_DRAWN)
    .map(([id]) => id);
}

const ROUND_s = [0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600];

function roundSeconds(from_s: number, to_s: number): number[] {
  const every = ROUND_s.find((s) => (to_s - from_s) / s <= LABELS) ?? (to_s - from_s) / LABELS;
  const first = Math.ceil(from_s / every - 1e-9);
  const last = Math.floor(to_s / every + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * every);
}
