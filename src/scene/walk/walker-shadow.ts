import { figureParts } from '../../core/geometry/figure.ts';
import { buildGeometry, type Geometry } from '../../core/geometry/geometry.ts';
import { faceRadius_m } from '../../core/lamps/face.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { add, cross, dot, length, normalize, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { type ArrivingRays, lampRays, skyRays, takenBy_lx } from '../../core/transport/arriving-rays.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import type { MeterPoint } from '../../core/transport/source-sample.ts';
import { bodyAt, type Walker } from './walker.ts';

/** What a walker takes from the straight light at a mark. */
export interface ShadowOnMark {
  /** Stops, not positive; −Infinity where all is taken. 0 in the dark. */
  readonly loss_stops: number;
  /** The lamp that loses most, if one does. */
  readonly lamp: string | null;
}

/** A mark with its straight light laid ready. */
export interface ShadedMark {
  readonly points: readonly LitPoint[];
}

export interface LitPoint {
  readonly meter: MeterPoint;
  readonly lamps: readonly ArrivingRays[];
  readonly sky: ArrivingRays;
  readonly total_lx: number;
}

/** A face is shaded from when its first edge is to when its last edge was; common practice, no source. */
const FACE_WIDTH_m = 0.2;
const LAMP_RAYS = 256;
const SKY_RAYS = 128;
/** Farther off, a body hides less of the sky than counts. */
const SKY_REACH_m = 6;

/** The mark itself, and a point half a face to either side of where it faces. */
export function shadedMark(model: LightModel, meter: MeterPoint, receptor: Receptor): ShadedMark {
  const across = normalize(cross(meter.facing, [0, 1, 0]));
  const aside = (share: number): MeterPoint => ({
    ...meter,
    position_m: add(meter.position_m, scale(across, share * FACE_WIDTH_m)),
  });
  return { points: [meter, aside(-0.5), aside(0.5)].map((point) => litPoint(model, point, receptor)) };
}

function litPoint(model: LightModel, meter: MeterPoint, receptor: Receptor): LitPoint {
  const lamps = model.lamps.map((_, i) => lampRays(model, i, meter, receptor, LAMP_RAYS));
  const sky = skyRays(model, meter, receptor, SKY_RAYS);
  return { meter, lamps, sky, total_lx: lamps.reduce((sum, { total_lx }) => sum + total_lx, sky.total_lx) };
}

/** A body as the light meets it. */
export interface Body {
  readonly geometry: Geometry;
  readonly foot_m: Vec3;
  readonly height_m: number;
}

export function walkingBody(walker: Walker, t_s: number): Body {
  const spec = bodyAt(walker, t_s);
  const parts = figureParts(spec).map(({ shape }) => ({
    shape,
    substance: { kind: 'material', index: 0 } as const,
    owner: 0,
  }));
  return { geometry: buildGeometry(parts), foot_m: spec.position_m, height_m: spec.height_m };
}

/** At the mark itself. */
export function shadowAtMark(model: LightModel, { points }: ShadedMark, body: Body): ShadowOnMark {
  return shadowAt(model, points[0]!, body);
}

/** The deepest shadow anywhere across the face, in stops. */
export function deepestAcross_stops(model: LightModel, { points }: ShadedMark, body: Body): number {
  return Math.min(...points.map((point) => shadowAt(model, point, body).loss_stops));
}

function shadowAt(model: LightModel, point: LitPoint, body: Body): ShadowOnMark {
  const { meter, lamps, sky, total_lx } = point;
  let taken_lx = 0;
  let most = { lx: 0, lamp: null as string | null };
  for (const [i, rays] of lamps.entries()) {
    const lamp = model.lamps[i]!;
    const reach_m = faceRadius_m(lamp.face);
    if (rays.total_lx === 0 || !isBetween(body, meter.position_m, lamp.frame.origin_m, reach_m)) continue;
    const lx = takenBy_lx(body.geometry, rays, meter);
    taken_lx += lx;
    if (lx > most.lx) most = { lx, lamp: lamp.id };
  }
  const away = subtract(body.foot_m, meter.position_m);
  if (sky.total_lx > 0 && Math.hypot(away[0], away[2]) < SKY_REACH_m)
    taken_lx += takenBy_lx(body.geometry, sky, meter);
  // Sums in another order leave a rounding where all is taken.
  const left = total_lx > 0 ? Math.max(0, 1 - taken_lx / total_lx) : 1;
  return { loss_stops: Math.log2(left < 1e-9 ? 0 : left), lamp: most.lamp };
}

/** Whether a body may be in the way, by a sphere round it. */
function isBetween(body: Body, from_m: Vec3, to_m: Vec3, reach_m: number): boolean {
  const middle = add(body.foot_m, [0, body.height_m / 2, 0]);
  const radius = 0.75 * body.height_m + reach_m;
  const line = subtract(to_m, from_m);
  const whole = length(line);
  if (whole === 0) return true;
  const along = Math.max(0, Math.min(1, dot(subtract(middle, from_m), line) / whole ** 2));
  return length(subtract(middle, add(from_m, scale(line, along)))) < radius;
}
