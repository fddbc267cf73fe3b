import { type FlatFace, faceRectangle_m2, flatFaces } from '../geometry/flat-face.ts';
import type { Placement } from '../geometry/placement.ts';
import { transmittance } from '../geometry/ray-query.ts';
import type { Part } from '../geometry/shape.ts';
import type { HazeRegion } from '../haze/haze-region.ts';
import { faceRadius_m } from '../lamps/face.ts';
import { type LitCone, litCone } from '../lamps/lit-cone.ts';
import type { LightModel, Pane } from '../light-model/light-model.ts';
import { kroneckerU, kroneckerV } from '../math/kronecker.ts';
import { add, dot, length, scale, subtract } from '../math/vec3.ts';
import { madeOnce } from '../memo/made-once.ts';
import type { Distribution } from '../photometry/distribution.ts';
import { intensityToward } from '../photometry/intensity.ts';
import { linearRgbFromXyz } from '../picture/linear-rgb.ts';
import { type PaneLobe, paneLobe } from '../surfaces/pane-lobe.ts';
import type { SurfaceOptics } from '../surfaces/surface-optics.ts';
import { hazeRegionsOf } from './haze-regions.ts';
import { type Emitter, emitterOf } from './lamp-sight.ts';
import { clearance_m } from './source-sample.ts';

/**
 * A light model made ready for tracing: what every path needs and no path should compute again.
 */
export interface Tracer {
  readonly model: LightModel;
  readonly extinction: number;
  /** By lamp. */
  readonly emitters: readonly Emitter[];
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
  /** Where haze scatters. */
  readonly hazeRegions: readonly HazeRegion[];
}

/** Farther than any scene reaches. */
export const FAR_m = 1e5;

/** A lamp and a flat glossy face that may throw its light on; where the lamp stands in the face's own axes u, v, n. */
export interface MirrorPair {
  readonly lamp: number;
  readonly face: MirrorFace;
  readonly lampRadius_m: number;
  readonly lampU_m: number;
  readonly lampV_m: number;
  readonly lampN_m: number;
}

export interface MirrorFace extends FlatFace {
  readonly part: number;
  readonly optics: SurfaceOptics;
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
    litLamps
      .filter((lamp) => lights(model, lamp, peak_cd[lamp]!, face))
      .map((lamp) => mirrorPair(model, lamp, face)),
  );
  const paneLobes = model.panes.map((pane) => (pane.scattered > 0 ? lobeOf(pane) : null));
  const scatterers = model.parts.flatMap((part, i) => paneSheet(model, part, i));
  return {
    model,
    extinction: model.haze?.extinction_per_m ?? 0,
    emitters: model.lamps.map(emitterOf),
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
    hazeRegions: hazeRegionsOf(model),
  };
}

const lobeOf = madeOnce(({ spread_deg }: Pane): PaneLobe => paneLobe(spread_deg));

function mirrorFaces(model: LightModel, { shape, substance }: Part, part: number): MirrorFace[] {
  if (substance.kind !== 'material') return [];
  const { optics } = model.surfaces[substance.index]!;
  if (!optics.glossy || optics.alpha >= MIRROR_MAX_ALPHA) return [];
  return flatFaces(shape)
    .filter((face) => faceRectangle_m2(face) >= LEAST_MIRROR_m2)
    .map((face) => ({ ...face, part, optics }));
}

function mirrorPair(model: LightModel, lamp: number, face: MirrorFace): MirrorPair {
  const { frame, face: emitting } = model.lamps[lamp]!;
  const from = subtract(frame.origin_m, face.centre_m);
  return {
    lamp,
    face,
    lampRadius_m: faceRadius_m(emitting),
    lampU_m: dot(from, face.u),
    lampV_m: dot(from, face.v),
    lampN_m: dot(from, face.n),
  };
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
const peakOf = madeOnce((distribution: Distribution): number => {
  let peak = 0;
  const n = 512;
  for (let i = 0; i < n; i++) {
    const a = 1 - (2 * i) / (n - 1);
    const s = Math.sqrt(1 - a * a);
    const turn = 2 * Math.PI * kroneckerU(i, 0);
    peak = Math.max(peak, intensityToward(distribution, s * Math.cos(turn), s * Math.sin(turn), a));
  }
  return peak;
});

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
