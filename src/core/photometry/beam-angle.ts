/**
 * Beam angle (50 %) and field angle (10 %): full angles, in the planes C 0–C 180 and C 90–C 270 through the axis.
 *
 * The reference is the maximum within the plane (IES LS-1). CIE and ANSI C78.379 refer to the centre-beam intensity
 * instead, which differs where the beam is hollow or off its axis. The angle returned is the smallest that holds every
 * direction at or above the share, so a twin-lobed beam counts from flank to flank.
 */
import { degreesFromRadians } from '../math/angle.ts';
import type { CandelaTable, Distribution } from './distribution.ts';

export interface PlaneAngles {
  /** In the plane of r and the axis. */
  readonly c0_deg: number;
  /** In the plane of t and the axis. */
  readonly c90_deg: number;
  readonly mean_deg: number;
}

const BEAM_SHARE = 0.5;
const FIELD_SHARE = 0.1;

/** Full angles at 50 % of the maximum. Exact for each kind of distribution; 0 in a plane that is dark. */
export function beamAngle_deg(distribution: Distribution): PlaneAngles {
  return anglesAt(distribution, BEAM_SHARE);
}

/** Full angles at 10 % of the maximum. */
export function fieldAngle_deg(distribution: Distribution): PlaneAngles {
  return anglesAt(distribution, FIELD_SHARE);
}

function anglesAt(distribution: Distribution, share: number): PlaneAngles {
  switch (distribution.kind) {
    case 'lambert':
      return both(2 * degreesFromRadians(Math.acos(share)));
    case 'beam':
      return both(share === BEAM_SHARE ? distribution.beam_deg : distribution.field_deg);
    case 'table': {
      const c0_deg = angleHolding(sectionC0(distribution), share);
      const c90_deg = angleHolding(sectionC90(distribution), share);
      return { c0_deg, c90_deg, mean_deg: (c0_deg + c90_deg) / 2 };
    }
  }
}

function both(angle_deg: number): PlaneAngles {
  return { c0_deg: angle_deg, c90_deg: angle_deg, mean_deg: angle_deg };
}

/** A straight piece of the curve of candela over the angle from the axis, −180 to 180, within a plane. */
interface Piece {
  readonly from_deg: number;
  readonly to_deg: number;
  readonly from_cd: number;
  readonly to_cd: number;
}

/** Both planes follow the goniometer's own lines in all three types, so the interpolant in them is piecewise linear. */
function sectionC0(table: CandelaTable): Piece[] {
  switch (table.goniometry) {
    case 'C':
      return typeCSection(table, 0, 180);
    case 'A':
    case 'B':
      return pieces(table.horizontal_deg, acrossPlanes(table, 0));
  }
}

function sectionC90(table: CandelaTable): Piece[] {
  switch (table.goniometry) {
    case 'C':
      return typeCSection(table, 90, 270);
    case 'A':
    case 'B':
      return pieces(table.vertical_deg, planeAt(table, 0));
  }
}

function typeCSection(table: CandelaTable, positive_deg: number, negative_deg: number): Piece[] {
  const { vertical_deg } = table;
  const backward = Float64Array.from(vertical_deg, (angle) => -angle).reverse();
  return [
    ...pieces(backward, planeAt(table, negative_deg).reverse()),
    ...pieces(vertical_deg, planeAt(table, positive_deg)),
  ];
}

function pieces(angles_deg: Float64Array, candela: Float64Array): Piece[] {
  return Array.from({ length: angles_deg.length - 1 }, (_, i) => ({
    from_deg: angles_deg[i]!,
    to_deg: angles_deg[i + 1]!,
    from_cd: candela[i]!,
    to_cd: candela[i + 1]!,
  }));
}

/** Candela over the vertical angles at a horizontal angle; dark where that was not measured. */
function planeAt(table: CandelaTable, horizontal_deg: number): Float64Array {
  const size = table.vertical_deg.length;
  const plane = (h: number): Float64Array => table.candela.slice(h * size, (h + 1) * size);
  if (table.horizontal_deg.length === 1) return plane(0);
  const next = table.horizontal_deg.findIndex((angle) => angle >= horizontal_deg);
  if (next < 0 || table.horizontal_deg[0]! > horizontal_deg) return new Float64Array(size);
  if (next === 0) return plane(0);
  const s = shareBefore(table.horizontal_deg, next, horizontal_deg);
  const before = plane(next - 1);
  return plane(next).map((candela, v) => candela * (1 - s) + before[v]! * s);
}

/** Candela over the horizontal angles at a vertical angle. */
function acrossPlanes(table: CandelaTable, vertical_deg: number): Float64Array {
  const { vertical_deg: angles, horizontal_deg, candela } = table;
  const next = angles.findIndex((angle) => angle >= vertical_deg);
  if (next < 0 || angles[0]! > vertical_deg) return new Float64Array(horizontal_deg.length);
  const s = next === 0 ? 0 : shareBefore(angles, next, vertical_deg);
  return Float64Array.from(horizontal_deg, (_, h) => {
    const at = h * angles.length + next;
    return candela[at]! * (1 - s) + (s === 0 ? 0 : candela[at - 1]! * s);
  });
}

/** How far `x` stands before `angles[next]`, as a share of the interval. */
function shareBefore(angles: Float64Array, next: number, x: number): number {
  return (angles[next]! - x) / (angles[next]! - angles[next - 1]!);
}

/** 360° less the widest sector of the plane in which the candela stay below the share of their maximum. */
function angleHolding(section: readonly Piece[], share: number): number {
  const peak = section.reduce((m, piece) => Math.max(m, piece.from_cd, piece.to_cd), 0);
  if (peak === 0) return 0;
  const level = share * peak;
  const bright = section.flatMap((piece) => brightPart(piece, level));
  const [first, last] = [bright[0]!, bright[bright.length - 1]!];
  let widest = first.from_deg + 360 - last.to_deg;
  for (let i = 1; i < bright.length; i++) {
    widest = Math.max(widest, bright[i]!.from_deg - bright[i - 1]!.to_deg);
  }
  return 360 - widest;
}

interface Arc {
  readonly from_deg: number;
  readonly to_deg: number;
}

function brightPart(piece: Piece, level: number): readonly Arc[] {
  const { from_deg, to_deg, from_cd, to_cd } = piece;
  if (from_cd < level && to_cd < level) return [];
  if (from_cd >= level && to_cd >= level) return [{ from_deg, to_deg }];
  const crossing_deg = from_deg + ((level - from_cd) / (to_cd - from_cd)) * (to_deg - from_deg);
  return from_cd >= level ? [{ from_deg, to_deg: crossing_deg }] : [{ from_deg: crossing_deg, to_deg }];
}
