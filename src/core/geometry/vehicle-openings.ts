import type { Rectangle } from './shape.ts';
import { type OpeningRun, type Side, type VehicleSpec, wallFrame } from './vehicle-spec.ts';

/** A hole in a wall, in metres along the wall (see WallFrame) from its middle and up from the floor. */
export interface WallOpening extends Rectangle {
  readonly name: string;
  /** Index in `windows` of the run whose pane fills it; null where nothing does. */
  readonly windowRun: number | null;
}

/** Every hole in a wall: its windows and open doors. */
export function wallOpenings(spec: VehicleSpec, side: Side): WallOpening[] {
  const windows = spec.windows.flatMap((run, index) =>
    run.side === side ? runOpenings(spec, run, run.sill_m, `${side} window`, run.glazed ? index : null) : [],
  );
  const doors = spec.doors.flatMap((run) =>
    run.side === side && run.open ? runOpenings(spec, run, 0, `${side} door`, null) : [],
  );
  return [...windows, ...doors];
}

function runOpenings(
  spec: VehicleSpec,
  run: OpeningRun,
  sill_m: number,
  name: string,
  windowRun: number | null,
): WallOpening[] {
  const { start_m, sense } = wallFrame(spec, run.side);
  return Array.from({ length: run.count }, (_, i) => {
    const near = start_m + sense * (run.first_m + i * run.pitch_m);
    const far = near + sense * run.width_m;
    return {
      left_m: Math.min(near, far),
      right_m: Math.max(near, far),
      bottom_m: sill_m,
      top_m: run.head_m,
      name: `${name} ${i + 1}`,
      windowRun,
    };
  });
}

export interface VehicleProblem {
  /** Path inside the spec: `windows[0].head_m`. */
  readonly where: string;
  readonly message: string;
}

/** Lengths typed as decimals that should be equal may differ by this much. */
const ROUNDING_m = 1e-9;
const MOST_OPENINGS = 500;

/** Everything that keeps the vehicle from being built, each with what was found, what fits and the mend; empty if none. */
export function vehicleProblems(spec: VehicleSpec): VehicleProblem[] {
  const body = bodyProblems(spec);
  if (body.length > 0) return body;
  const runs = [
    ...spec.windows.map((run, i) => ({ where: `windows[${i}]`, run, sill_m: run.sill_m, hole: true })),
    ...spec.doors.map((run, i) => ({ where: `doors[${i}]`, run, sill_m: 0, hole: run.open })),
  ];
  const own = runs.flatMap(({ where, run, sill_m }) => runProblems(spec, where, run, sill_m));
  return own.length > 0
    ? own
    : overlapProblems(
        spec,
        runs.filter(({ hole }) => hole),
      );
}

function bodyProblems(spec: VehicleSpec): VehicleProblem[] {
  const { size_m, wall_m, roofRadius_m } = spec;
  const [length, height, width] = size_m;
  const problems: VehicleProblem[] = [];
  const add = (where: string, message: string) => problems.push({ where, message });
  if (!size_m.every((s) => Number.isFinite(s) && s > 0))
    add('size_m', `is ${size_m.join(', ')}: length, height and width must be above 0 m.`);
  else {
    const thickest = Math.min(length / 2, width / 2, height);
    if (!(wall_m > 0 && wall_m < thickest))
      add('wall_m', `is ${wall_m}: must be above 0 and under ${thickest} m, to leave room inside.`);
    const roundest = Math.min(width / 2, height - ROUNDING_m);
    if (!(roofRadius_m >= 0 && roofRadius_m <= roundest))
      add(
        'roofRadius_m',
        `is ${roofRadius_m}: must be from 0 to ${roundest} m, half the width and under the height.`,
      );
  }
  return problems;
}

function runProblems(spec: VehicleSpec, where: string, run: OpeningRun, sill_m: number): VehicleProblem[] {
  const { span_m, rounded } = wallFrame(spec, run.side);
  const { count, first_m, pitch_m, width_m, head_m } = run;
  const problems: VehicleProblem[] = [];
  const add = (field: string, message: string) => problems.push({ where: `${where}.${field}`, message });

  if (!(Number.isInteger(count) && count >= 1 && count <= MOST_OPENINGS))
    add('count', `is ${count}: must be a whole number from 1 to ${MOST_OPENINGS}.`);
  if (!(width_m > 0 && Number.isFinite(width_m))) add('width_m', `is ${width_m}: must be above 0 m.`);
  if (!(Number.isFinite(pitch_m) && (count === 1 || pitch_m >= width_m - ROUNDING_m)))
    add('pitch_m', `is ${pitch_m}: must be at least the width, ${width_m} m, or they overlap.`);
  if (!(first_m >= spec.wall_m - ROUNDING_m && Number.isFinite(first_m)))
    add(
      'first_m',
      `is ${first_m}: must be at least the wall's thickness, ${spec.wall_m} m, to clear the corner.`,
    );
  if (!(sill_m >= 0 && Number.isFinite(sill_m)))
    add('sill_m', `is ${sill_m}: must be 0 m (the floor) or above.`);
  if (!(head_m > sill_m)) add('head_m', `is ${head_m}: must be above the lower edge, at ${sill_m} m.`);
  if (problems.length > 0) return problems;

  const far = first_m + (count - 1) * pitch_m + width_m;
  const longest = span_m - spec.wall_m;
  if (far > longest + ROUNDING_m)
    add(
      'first_m',
      `puts the last one's far edge at ${metres(far)}: the ${run.side} wall has room to ${metres(longest)}.`,
    );
  else {
    const near = Math.min(first_m, span_m - far);
    const highest = headroom(spec, rounded, near);
    if (head_m > highest + ROUNDING_m)
      add(
        'head_m',
        `is ${head_m}: must be ${metres(highest)} or lower, under the roof${spec.roofRadius_m > 0 ? ' and its rounded edge' : ''}.`,
      );
  }
  return problems;
}

/** How high an opening may reach whose edge comes within `near` of the wall's end. */
function headroom(spec: VehicleSpec, rounded: boolean, near: number): number {
  const { wall_m, roofRadius_m } = spec;
  const [, height] = spec.size_m;
  if (!rounded) return height - Math.max(roofRadius_m, wall_m);
  const innerRadius = Math.max(0, roofRadius_m - wall_m);
  const intoCorner = Math.max(0, roofRadius_m - near);
  return innerRadius > 0 && intoCorner > 0
    ? height - roofRadius_m + Math.sqrt(Math.max(0, innerRadius ** 2 - intoCorner ** 2))
    : height - wall_m;
}

interface Hole {
  readonly where: string;
  readonly run: OpeningRun;
  readonly sill_m: number;
}

function overlapProblems(spec: VehicleSpec, holes: readonly Hole[]): VehicleProblem[] {
  return holes.flatMap((hole, i) =>
    holes
      .slice(0, i)
      .filter((other) => other.run.side === hole.run.side && overlap(spec, hole, other))
      .map((other) => ({
        where: hole.where,
        message: `overlaps ${other.where} on the ${hole.run.side} wall: move one along the wall, or make it narrower or lower.`,
      })),
  );
}

function overlap(spec: VehicleSpec, a: Hole, b: Hole): boolean {
  const rectangles = ({ run, sill_m }: Hole) => runOpenings(spec, run, sill_m, '', null);
  const apart = (low: number, high: number, otherLow: number, otherHigh: number) =>
    low > otherHigh - ROUNDING_m || otherLow > high - ROUNDING_m;
  return rectangles(a).some((p) =>
    rectangles(b).some(
      (q) =>
        !apart(p.left_m, p.right_m, q.left_m, q.right_m) && !apart(p.bottom_m, p.top_m, q.bottom_m, q.top_m),
    ),
  );
}

function metres(length_m: number): string {
  return `${Number(length_m.toFixed(3))} m`;
}
