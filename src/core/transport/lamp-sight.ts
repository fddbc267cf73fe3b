import { hazeTransmittance } from '../haze/transmittance.ts';
import { type Face, type FacePoint, placeOnFace } from '../lamps/face.ts';
import type { Haze, Lamp } from '../light-model/light-model.ts';
import type { Vec3 } from '../math/vec3.ts';
import { type BeamTable, beamTableOf, tabulatedBeam } from '../photometry/beam-table.ts';
import type { Distribution } from '../photometry/distribution.ts';
import { intensityToward } from '../photometry/intensity.ts';

/** A lamp made ready to be looked at millions of times. */
export interface Emitter {
  readonly face: Face;
  readonly origin_m: Vec3;
  readonly r: Vec3;
  readonly t: Vec3;
  readonly a: Vec3;
  readonly gain: number;
  readonly distribution: Distribution;
  readonly beam: BeamTable | null;
}

export function emitterOf({ face, frame, gain, distribution }: Lamp): Emitter {
  const { origin_m, r, t, a } = frame;
  return { face, origin_m, r, t, a, gain, distribution, beam: beamTableOf(distribution) };
}

/** Candela along a unit direction that leaves the lamp. */
export function emitted_cd(emitter: Emitter, x: number, y: number, z: number): number {
  const { r, t, a, beam, gain } = emitter;
  const along = x * a[0] + y * a[1] + z * a[2];
  if (beam) return gain * tabulatedBeam(beam, along);
  const across = x * r[0] + y * r[1] + z * r[2];
  const up = x * t[0] + y * t[1] + z * t[2];
  return gain * intensityToward(emitter.distribution, across, up, along);
}

/** A point of a lamp's face as seen from somewhere, and what it shines there with nothing in the way. */
export interface LampSight {
  /** The point of the face. */
  sx: number;
  sy: number;
  sz: number;
  /** Unit direction toward it, and how far it is. */
  wx: number;
  wy: number;
  wz: number;
  d_m: number;
  /** Illuminance square to that direction, standing for the whole face; haze on the way taken off. */
  normal_lx: number;
}

export function newLampSight(): LampSight {
  return { sx: 0, sy: 0, sz: 0, wx: 0, wy: 0, wz: 0, d_m: 0, normal_lx: 0 };
}

const onFace: FacePoint = { r_m: 0, t_m: 0 };

/** Chooses the point (u, v) of a lamp's face. */
export function choosePoint({ face, origin_m, r, t }: Emitter, u: number, v: number, sight: LampSight): void {
  placeOnFace(face, u, v, onFace);
  const { r_m, t_m } = onFace;
  sight.sx = origin_m[0] + r[0] * r_m + t[0] * t_m;
  sight.sy = origin_m[1] + r[1] * r_m + t[1] * t_m;
  sight.sz = origin_m[2] + r[2] * r_m + t[2] * t_m;
}

/** Looks from a place at the chosen point of a lamp's face. */
export function seePoint(
  emitter: Emitter,
  haze: Haze | null,
  px: number,
  py: number,
  pz: number,
  sight: LampSight,
): void {
  const dx = sight.sx - px;
  const dy = sight.sy - py;
  const dz = sight.sz - pz;
  const d2 = Math.max(1e-18, dx * dx + dy * dy + dz * dz);
  const d = Math.sqrt(d2);
  const wx = dx / d;
  const wy = dy / d;
  const wz = dz / d;
  sight.wx = wx;
  sight.wy = wy;
  sight.wz = wz;
  sight.d_m = d;
  const E = emitted_cd(emitter, -wx, -wy, -wz) / d2;
  sight.normal_lx = haze && E > 0 ? E * hazeTransmittance(haze, px, py, pz, wx, wy, wz, d) : E;
}

/** Looks from a place at the point (u, v) of a lamp's face. */
export function seeLamp(
  emitter: Emitter,
  haze: Haze | null,
  px: number,
  py: number,
  pz: number,
  u: number,
  v: number,
  sight: LampSight,
): void {
  choosePoint(emitter, u, v, sight);
  seePoint(emitter, haze, px, py, pz, sight);
}
