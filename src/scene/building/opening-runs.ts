import type { Rectangle } from '../../core/geometry/shape.ts';
import { vehicleProblems, wallOpenings } from '../../core/geometry/vehicle-openings.ts';
import { type Side, type VehicleSpec, wallFrame } from '../../core/geometry/vehicle-spec.ts';
import { vehicleSpec } from '../compile/solid-shapes.ts';
import type { VehicleSolid } from '../schema/solid.ts';
import { toCentimetre } from './rounded.ts';

export type RunKind = 'windows' | 'doors';
export type WindowRun = NonNullable<VehicleSolid['windows']>[number];
export type DoorRun = NonNullable<VehicleSolid['doors']>[number];
export type Run = WindowRun | DoorRun;

/** Which row of which kind. */
export interface RunPlace {
  readonly kind: RunKind;
  readonly index: number;
}

/** One window or door as it is seen from outside: metres to the right of the wall's middle and up from the floor. */
export interface SeenOpening extends Rectangle, RunPlace {
  /** Which of its row, 0 the first. */
  readonly nth: number;
}

export interface SeenWall {
  readonly span_m: number;
  readonly height_m: number;
  /** Radius of its two upper corners, which the roof rounds; 0 on the sides, that end below the rounding. */
  readonly cornerRadius_m: number;
  /** Where the rounding of the roof begins on the sides. */
  readonly roofFrom_m: number;
  /** +1 where distances along the wall are counted to the right, −1 where to the left. */
  readonly sense: 1 | -1;
  readonly openings: readonly SeenOpening[];
}

/** A wall as someone sees it who faces it from outside, closed doors too. */
export function seenWall(solid: VehicleSolid, side: Side): SeenWall {
  const spec = vehicleSpec(solid);
  const { span_m, sense, rounded } = wallFrame(spec, side);
  const allOpen: VehicleSpec = { ...spec, doors: spec.doors.map((door) => ({ ...door, open: true })) };
  const rows = (['windows', 'doors'] as const).flatMap((kind) =>
    (solid[kind] ?? []).flatMap((run, index) =>
      run.side === side ? Array.from({ length: run.count }, (_, nth) => ({ kind, index, nth })) : [],
    ),
  );
  // Windows come before doors and each row in its order, there as here.
  const openings = wallOpenings(allOpen, side).map(({ left_m, right_m, bottom_m, top_m }, i) => ({
    left_m,
    right_m,
    bottom_m,
    top_m,
    ...rows[i]!,
  }));
  const height_m = spec.size_m[1];
  return {
    span_m,
    height_m,
    cornerRadius_m: rounded ? spec.roofRadius_m : 0,
    roofFrom_m: height_m - spec.roofRadius_m,
    sense,
    openings,
  };
}

export function runAt(solid: VehicleSolid, { kind, index }: RunPlace): Run | undefined {
  return solid[kind]?.[index];
}

/** The change of the vehicle that changes one row; fields that are undefined are taken out. */
export function runPatch(
  solid: VehicleSolid,
  { kind, index }: RunPlace,
  patch: Partial<WindowRun & DoorRun>,
) {
  const runs: readonly Run[] = solid[kind] ?? [];
  const changed = Object.entries({ ...runs[index], ...patch }).filter(([, value]) => value !== undefined);
  return { [kind]: runs.with(index, Object.fromEntries(changed) as Run) };
}

/** The change that takes one row away. */
export function withoutRun(solid: VehicleSolid, { kind, index }: RunPlace) {
  const runs = (solid[kind] as readonly Run[]).toSpliced(index, 1);
  return { [kind]: runs.length > 0 ? runs : null };
}

/** The change that adds a row, last of its kind. */
export function withRun(solid: VehicleSolid, kind: RunKind, run: Run) {
  return { [kind]: [...(solid[kind] ?? []), run] };
}

/** What part of a row is dragged. */
export type RunGrip = 'whole' | 'head' | 'sill' | 'width' | 'pitch';

/**
 * What a drag makes of a row: by metres to the right and up as seen from outside, of the window or door that was taken hold
 * of. `sense` is the wall's. Doors stay on the floor.
 */
export function draggedRun(
  run: Run,
  grip: RunGrip,
  nth: number,
  sense: 1 | -1,
  right_m: number,
  up_m: number,
): Partial<WindowRun & DoorRun> {
  const along_m = sense * right_m;
  const isWindow = 'sill_m' in run;
  switch (grip) {
    case 'whole':
      return {
        first_m: toCentimetre(Math.max(0, run.first_m + along_m)),
        ...(isWindow
          ? { sill_m: toCentimetre(Math.max(0, run.sill_m + up_m)), head_m: toCentimetre(run.head_m + up_m) }
          : {}),
      };
    case 'head':
      return { head_m: toCentimetre(run.head_m + up_m) };
    case 'sill':
      return isWindow ? { sill_m: toCentimetre(Math.max(0, run.sill_m + up_m)) } : {};
    case 'width':
      return { width_m: toCentimetre(Math.max(0.05, run.width_m + along_m)) };
    case 'pitch':
      return { pitch_m: toCentimetre((run.pitch_m ?? run.width_m) + along_m / Math.max(1, nth)) };
  }
}

/** Whether the vehicle can be built with a row changed so. */
export function runFits(solid: VehicleSolid, place: RunPlace, patch: Partial<WindowRun & DoorRun>): boolean {
  return fits({ ...solid, ...runPatch(solid, place, patch) } as VehicleSolid);
}

function fits(solid: VehicleSolid): boolean {
  return vehicleProblems(vehicleSpec(solid)).length === 0;
}

const HALVINGS = 12;

/**
 * As much of a change of numbers as the vehicle can be built with, to the centimetre: a drag stops at the wall's end instead
 * of sticking before it. Empty where none of it fits.
 */
export function asFarAsFits(
  solid: VehicleSolid,
  place: RunPlace,
  patch: Partial<WindowRun & DoorRun>,
): Partial<WindowRun & DoorRun> {
  if (runFits(solid, place, patch)) return patch;
  const run = runAt(solid, place) as Readonly<Record<string, unknown>>;
  const part = (share: number) =>
    Object.fromEntries(
      Object.entries(patch).map(([field, wanted]) => {
        const now = field === 'pitch_m' ? (run.pitch_m ?? run.width_m) : run[field];
        const moved = (now as number) + share * ((wanted as number) - (now as number));
        return [field, toCentimetre(moved)];
      }),
    );
  let low = 0;
  let high = 1;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (runFits(solid, place, part(middle))) low = middle;
    else high = middle;
  }
  return low > 0 ? part(low) : {};
}

const WINDOW_WIDTHS_m = [1.2, 0.8, 0.5];
const DOOR_WIDTHS_m = [1, 0.8, 0.6];
const DOOR_HEAD_m = 2;
const STEP_m = 0.1;
const FROM_CORNER_m = 0.3;
const MOST_AT_ONCE = 6;

/** A row that fits into the free part of a wall, windows as many as there is room for up to six; null where there is none. */
export function newRun(solid: VehicleSolid, kind: RunKind, side: Side, pane: string): Run | null {
  const { span_m, height_m, roofFrom_m, cornerRadius_m } = seenWall(solid, side);
  const highest_m = Math.min(roofFrom_m, height_m - 0.15) - (cornerRadius_m > 0 ? 0 : 0.1);
  for (const width_m of kind === 'windows' ? WINDOW_WIDTHS_m : DOOR_WIDTHS_m) {
    const size =
      kind === 'windows'
        ? { width_m, head_m: toCentimetre(highest_m), sill_m: toCentimetre(0.45 * highest_m), pane }
        : { width_m, head_m: toCentimetre(Math.min(DOOR_HEAD_m, highest_m)) };
    for (const first_m of startsOn(span_m, width_m, cornerRadius_m > 0)) {
      const one = { side, count: 1, first_m, ...size } as Run;
      if (!fitsAdded(solid, kind, one)) continue;
      return kind === 'doors' ? one : filled(solid, one);
    }
  }
  return null;
}

/** In the middle of an end wall first, along a side from the front. */
function startsOn(span_m: number, width_m: number, middleFirst: boolean): number[] {
  const count = Math.max(0, Math.floor((span_m - FROM_CORNER_m - width_m) / STEP_m));
  const starts = Array.from({ length: count }, (_, i) => toCentimetre(FROM_CORNER_m + i * STEP_m));
  return middleFirst ? [toCentimetre((span_m - width_m) / 2), ...starts] : starts;
}

function filled(solid: VehicleSolid, one: Run): Run {
  let row = one;
  for (let count = 2; count <= MOST_AT_ONCE; count++) {
    const more = { ...one, count, pitch_m: toCentimetre(1.5 * one.width_m) };
    if (!fitsAdded(solid, 'windows', more)) break;
    row = more;
  }
  return row;
}

function fitsAdded(solid: VehicleSolid, kind: RunKind, run: Run): boolean {
  return fits({ ...solid, ...withRun(solid, kind, run) } as VehicleSolid);
}
