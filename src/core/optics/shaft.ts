/**
 * The shaft of light that a lamp throws through a window onto the ground. Heights over that ground, a from the lamp to the
 * glass along the floor, z the height of an edge of the opening, z_L of the lamp:
 *   the edge's shadow lies a·z/(z_L − z) beyond the glass;
 *   a source of width w is blurred to w·(edge to ground)/(lamp to edge) across the ray, and to that ÷ sin(elevation) along
 *   the ground for edges that lie across the throw (sill and head); a mullion's blur is not stretched.
 * Similar triangles, first order in w. For the plane through the lamp square to the glass, flat ground, thin glass.
 */
import { nonNegative, positive } from '../units/quantity.ts';

export interface ShaftOpening {
  readonly lampHeight_m: number;
  readonly lampToGlass_m: number;
  readonly sill_m: number;
  readonly head_m: number;
  readonly sourceWidth_m: number;
}

/** Where the ray over an edge of the opening meets the ground. Everything is infinite where it never does. */
export interface ShaftEdge {
  /** From the glass along the ground. */
  readonly reach_m: number;
  /** From the lamp, along the ray. */
  readonly distance_m: number;
  /** sin of the ray's elevation, which is the cosine of its incidence on the ground. */
  readonly sinElevation: number;
  /** Width of the half-shadow of an upright edge (mullion, jamb), and of the sill or head along the throw. */
  readonly mullionBlur_m: number;
  readonly edgeBlur_m: number;
}

export interface GroundShaft {
  /** Over the sill. */
  readonly near: ShaftEdge;
  /** Under the head; endless where the head is not below the lamp. */
  readonly far: ShaftEdge;
  /** Illuminance at the near edge over that at the far edge for the same candela in both directions, stops. */
  readonly fallOff_stops: number;
}

/** Null where the sill is not below the lamp: then nothing reaches the ground. RangeError for openings upside down. */
export function groundShaft(opening: ShaftOpening): GroundShaft | null {
  const { sill_m, head_m, lampHeight_m } = opening;
  if (!(nonNegative(sill_m, 'sill height in m') < positive(head_m, 'head height in m')))
    throw new RangeError(`the sill is at ${sill_m} m and the head at ${head_m} m; the sill must be lower`);
  if (sill_m >= positive(lampHeight_m, 'lamp height in m')) return null;
  const near = shaftEdge(opening, sill_m);
  const far = shaftEdge(opening, head_m);
  return { near, far, fallOff_stops: 3 * Math.log2(far.distance_m / near.distance_m) };
}

function shaftEdge(opening: ShaftOpening, z: number): ShaftEdge {
  const zL = opening.lampHeight_m;
  const a = positive(opening.lampToGlass_m, 'distance from lamp to glass in m');
  const w = nonNegative(opening.sourceWidth_m, 'source width in m');
  if (z >= zL)
    return {
      reach_m: Number.POSITIVE_INFINITY,
      distance_m: Number.POSITIVE_INFINITY,
      sinElevation: 0,
      mullionBlur_m: Number.POSITIVE_INFINITY,
      edgeBlur_m: Number.POSITIVE_INFINITY,
    };
  const beyond = z / (zL - z);
  const distance_m = Math.hypot(a * (1 + beyond), zL);
  const sinElevation = zL / distance_m;
  return {
    reach_m: a * beyond,
    distance_m,
    sinElevation,
    mullionBlur_m: w * beyond,
    edgeBlur_m: (w * beyond) / sinElevation,
  };
}
