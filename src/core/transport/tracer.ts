import { type Placement, worldDirection, worldPoint } from '../geometry/placement.ts';
import { transmittance } from '../geometry/ray-query.ts';
import type { Part } from '../geometry/shape.ts';
import { type LitCone, litCone } from '../lamps/lit-cone.ts';
import type { LightModel } from '../light-model/light-model.ts';
import { kroneckerU, kroneckerV } from '../math/kronecker.ts';
import { add, dot, length, scale, subtract, type Vec3 } from '../math/vec3.ts';
import type { Distribution } from '../photometry/distribution.ts';
import { intensityToward } from '../photometry/intensity.ts';
import { linearRgbFromXyz } from '../picture/linear-rgb.ts';
import { type PaneLobe, paneLobe } from '../surfaces/pane-lobe.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { clearance_m } from './source-sample.ts';

/**
 * A light model made ready for tracing: what every path needs and no path should compute again.
 */
export interface Tracer {
  readonly model: LightModel;
  readonly extinction: number;
  /** Linear RGB of each lamp's light at luminance 1, three numbers a lamp. */
  readonly lampRgb: Float64Array;
  readonly skyRgb: Float64Array;
  /** Luminance of the sky, cd/m². */
  readonly skyLuminance: number;
  /** Lamps that are alight. */
  readonly litLamps: readonly number[];
  readonly mirrors: readonly MirrorPair[];
  readonly scatterers: readonly PaneSheet[];
  readonly scattererArea_m2: number;
  /** The same by part. */
  readonly mirrorsOf: ReadonlyMap<number, readonly MirrorPair[]>;
  /** Greatest intensity of each lamp at full level, roughly. */
  readonly peak_cd: Float64Array;
  readonly paneLobes: readonly (PaneLobe | null)[];
  /** By lamp: where it shines with a quarter and with a thousandth of its peak; null where that is nearly everywhere. */
  readonly brightCones: readonly (LitCone | null)[];
  readonly litCones: readonly (LitCone | null)[];
  /** What haze fills: all that is in the scene and HAZE_MARGIN_m round it, as low x, y, z and high x, y, z. */
  readonly hazeBox_m: Float64Array;
}

const HAZE_MARGIN_m = 20;

/** A lamp and a flat glossy face that may throw its light on. */
export interface MirrorPair {
  readonly lamp: number;
  readonly face: MirrorFace;
}

export interface MirrorFace {
  readonly part: number;
  readonly optics: SurfaceOptics;
  readonly centre_m: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly n: Vec3;
  readonly halfU_m: number;
  readonly halfV_m: number;
  /** Whether only the side that n points to is there to be seen. */
  readonly oneSided: boolean;
}

/** A pane that scatters, as a sheet whose points can be chosen. */
export interface PaneSheet {
  readonly part: number;
  readonly pane: number;
  readonly placement: Placement;
  readonly halfSize_m: readonly [number, number];
  readonly area_m2: number;
}

/** Rougher faces than this spread light so wide that a path finds it as well as an aimed connection. */
const MIRROR_MAX_ALPHA = 0.3;
/** Up to this α a reflection is sharp: a camera's path goes on through it as if it looked round a corner. */
export const SHARP_MAX_ALPHA = 0.02;
/** Smaller faces (reveals, edges) are left to chance. */
const LEAST_MIRROR_m2 = 0.1;
/** Points of a face that are looked at from a lamp before the pair is dropped as never lit. */
const FACE_PROBES = 256;

export function newTracer(model: LightModel): Tracer {
  const litLamps = [...model.lamps.keys()].filter((i) => model.lamps[i]!.gain > 0);
  const faces = model.parts.flatMap((part, i) => mirrorFaces(model, part, i));
  const peak_cd = Float64Array.from(model.lamps, (lamp) => peakOf(lamp.distribution));
  const mirrors = faces.flatMap((face) =>
    litLamps.filter((lamp) => lights(model, lamp, peak_cd[lamp]!, face)).map((lamp) => ({ lamp, face })),
  );
  const paneLobes = model.panes.map((pane) => (pane.scattered > 0 ? paneLobe(pane.spread_deg) : null));
  const scatterers = model.parts.flatMap((part, i) => paneSheet(model, part, i));
  return {
    model,
    extinction: model.haze?.extinction_per_m ?? 0,
    lampRgb: Float64Array.from(model.lamps.flatMap((lamp) => linearRgbFromXyz(lamp.colour_XYZ))),
    skyRgb: Float64Array.from(linearRgbFromXyz(model.sky?.colour_XYZ ?? [1, 1, 1])),
    skyLuminance: (model.sky?.illuminance_lx ?? 0) / Math.PI,
    litLamps,
    mirrors,
    scatterers,
    scattererArea_m2: scatterers.reduce((sum, sheet) => sum + sheet.area_m2, 0),
    mirrorsOf: byPart(mirrors),
    peak_cd,
    paneLobes,
    brightCones: cones(model, BRIGHT_SHARE),
    litCones: cones(model, LIT_SHARE),
    hazeBox_m: hazeBox(model),
  };
}

function mirrorFaces(model: LightModel, part: Part, index: number): MirrorFace[] {
  const { shape, substance } = part;
  if (substance.kind !== 'material') return [];
  const { optics } = model.surfaces[substance.index]!;
  if (!optics.glossy || optics.alpha >= MIRROR_MAX_ALPHA) return [];
  const face = (placement: Placement, halfU_m: number, halfV_m: number, oneSided = false): MirrorFace => ({
    part: index,
    optics,
    centre_m: placement.origin_m,
    u: placement.x,
    v: placement.y,
    n: placement.z,
    halfU_m,
    halfV_m,
    oneSided,
  });
  const large = (f: MirrorFace) => 4 * f.halfU_m * f.halfV_m >= LEAST_MIRROR_m2;
  if (shape.kind === 'panel') return [face(shape.placement, ...shape.halfSize_m)].filter(large);
  if (shape.kind !== 'box') return [];
  const [hx, hy, hz] = shape.halfSize_m;
  const side = (n: Vec3, u: Vec3, v: Vec3, reach: number, halfU: number, halfV: number) => {
    const out = worldDirection(shape.placement, n);
    return face(
      {
        origin_m: worldPoint(shape.placement, scale(n, reach)),
        x: worldDirection(shape.placement, u),
        y: worldDirection(shape.placement, v),
        z: out,
      },
      halfU,
      halfV,
      true,
    );
  };
  const [X, Y, Z]: [Vec3, Vec3, Vec3] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  return [1, -1]
    .flatMap((s) => [
      side(scale(X, s), Y, Z, hx, hy, hz),
      side(scale(Y, s), X, Z, hy, hx, hz),
      side(scale(Z, s), X, Y, hz, hx, hy),
    ])
    .filter(large);
}

function byPart(mirrors: readonly MirrorPair[]): Map<number, MirrorPair[]> {
  const grouped = new Map<number, MirrorPair[]>();
  for (const pair of mirrors) grouped.set(pair.face.part, [...(grouped.get(pair.face.part) ?? []), pair]);
  return grouped;
}

/** Whether any of many points of a face gets light of a lamp, from its centre, more than a trace of its peak. */
function lights(model: LightModel, lamp: number, peak_cd: number, face: MirrorFace): boolean {
  const { frame, distribution } = model.lamps[lamp]!;
  const [lx, ly, lz] = frame.origin_m;
  const height = dot(subtract(frame.origin_m, face.centre_m), face.n);
  if (face.oneSided ? height < 1e-6 : Math.abs(height) < 1e-6) return false;
  for (let i = 0; i < FACE_PROBES; i++) {
    const q = add(
      face.centre_m,
      add(
        scale(face.u, face.halfU_m * (2 * kroneckerU(i, 0) - 1)),
        scale(face.v, face.halfV_m * (2 * kroneckerV(i, 0) - 1)),
      ),
    );
    const to = subtract(q, frame.origin_m);
    const d = length(to);
    const I = intensityToward(distribution, dot(to, frame.r) / d, dot(to, frame.t) / d, dot(to, frame.a) / d);
    if (I < TRACE * peak_cd) continue;
    const clear = clearance_m(d) / d;
    if (transmittance(model.geometry, lx, ly, lz, ...to, clear, 1 - clear, model.paneDirect) > 0) return true;
  }
  return false;
}

/** Less than this share of a lamp's peak is left to chance. */
const TRACE = 1e-4;

/** Greatest intensity along a set of directions all round. */
function peakOf(distribution: Distribution): number {
  let peak = 0;
  const n = 512;
  for (let i = 0; i < n; i++) {
    const a = 1 - (2 * i) / (n - 1);
    const s = Math.sqrt(1 - a * a);
    const turn = 2 * Math.PI * kroneckerU(i, 0);
    peak = Math.max(peak, intensityToward(distribution, s * Math.cos(turn), s * Math.sin(turn), a));
  }
  return peak;
}

function paneSheet(model: LightModel, part: Part, index: number): PaneSheet[] {
  const { shape, substance } = part;
  if (substance.kind !== 'pane' || shape.kind !== 'panel') return [];
  if (model.panes[substance.index]!.scattered === 0) return [];
  const { placement, halfSize_m } = shape;
  const area_m2 = 4 * halfSize_m[0] * halfSize_m[1];
  return [{ part: index, pane: substance.index, placement, halfSize_m, area_m2 }];
}

const BRIGHT_SHARE = 0.25;
const LIT_SHARE = 1e-3;

function cones(model: LightModel, share: number): (LitCone | null)[] {
  return model.lamps.map(({ frame, face, distribution }) => litCone(frame, face, distribution, share));
}

function hazeBox(model: LightModel): Float64Array {
  const box = Float64Array.of(0, 0, 0, 0, 0, 0);
  const take = (x: number, axis: number) => {
    box[axis] = Math.min(box[axis]!, x - HAZE_MARGIN_m);
    box[axis + 3] = Math.max(box[axis + 3]!, x + HAZE_MARGIN_m);
  };
  for (const lamp of model.lamps) for (let axis = 0; axis < 3; axis++) take(lamp.frame.origin_m[axis]!, axis);
  const { bounds } = model.geometry;
  for (let i = 0; i < bounds.length; i++) take(bounds[i]!, i % 3);
  return box;
}

/** How far haze reaches along a ray from inside it; 0 from outside. */
export function hazeReach_m(
  { hazeBox_m: box }: Tracer,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const x = ((dx > 0 ? box[3]! : box[0]!) - ox) / (dx || 1e-300);
  const y = ((dy > 0 ? box[4]! : box[1]!) - oy) / (dy || 1e-300);
  const z = ((dz > 0 ? box[5]! : box[2]!) - oz) / (dz || 1e-300);
  return Math.max(0, Math.min(x, y, z));
}
