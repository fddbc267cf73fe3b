import type { Vec3 } from '../math/vec3.ts';

/**
 * A vehicle's own frame: length along x with the front (bow) at +x, y up from the floor, the right side at +z.
 */
export interface VehicleSpec {
  /** Length, height, width over all. */
  readonly size_m: Vec3;
  readonly wall_m: number;
  /** Outer radius of the roof's two long edges; 0 for square ones. */
  readonly roofRadius_m: number;
  readonly windows: readonly WindowRun[];
  readonly doors: readonly DoorRun[];
  /** Whether it has an inner shell; without one, its outer walls are single sheets seen from both sides. */
  readonly inside: boolean;
}

export type Side = 'right' | 'left' | 'front' | 'back';

export const SIDES: readonly Side[] = ['right', 'left', 'front', 'back'];

/** `count` equal openings in a wall, `pitch_m` from the near edge of one to that of the next. */
export interface OpeningRun {
  readonly side: Side;
  readonly count: number;
  /** To the near edge of the first: from the front end on a side wall, from the right side on an end wall. */
  readonly first_m: number;
  readonly pitch_m: number;
  readonly width_m: number;
  /** Upper edge, above the floor. */
  readonly head_m: number;
}

export interface WindowRun extends OpeningRun {
  /** Lower edge, above the floor. */
  readonly sill_m: number;
  /** Whether a pane fills it. */
  readonly glazed: boolean;
}

/** Doors reach down to the floor. A closed one is as the wall. */
export interface DoorRun extends OpeningRun {
  readonly open: boolean;
}

export interface WallFrame {
  /** Horizontal, to the right for someone who faces the wall from outside. */
  readonly along: Vec3;
  readonly outward: Vec3;
  readonly span_m: number;
  /** Of the outer surface from the middle of the vehicle. */
  readonly distance_m: number;
  /** Where the distances along the wall are measured from, and in which sense, in terms of `along`. */
  readonly start_m: number;
  readonly sense: 1 | -1;
  /** The end walls follow the rounded edges of the roof; the side walls stop below them. */
  readonly rounded: boolean;
}

export function wallFrame(spec: VehicleSpec, side: Side): WallFrame {
  const [length, , width] = spec.size_m;
  const lengthways = { span_m: length, distance_m: width / 2, rounded: false };
  const crossways = { span_m: width, distance_m: length / 2, rounded: true };
  switch (side) {
    case 'right':
      return { ...lengthways, along: [1, 0, 0], outward: [0, 0, 1], start_m: length / 2, sense: -1 };
    case 'left':
      return { ...lengthways, along: [-1, 0, 0], outward: [0, 0, -1], start_m: -length / 2, sense: 1 };
    case 'front':
      return { ...crossways, along: [0, 0, -1], outward: [1, 0, 0], start_m: -width / 2, sense: 1 };
    case 'back':
      return { ...crossways, along: [0, 0, 1], outward: [-1, 0, 0], start_m: width / 2, sense: -1 };
  }
}
