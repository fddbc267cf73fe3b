import type { ThinLens } from '../camera/thin-lens.ts';
import { nearestHit } from '../geometry/ray-query.ts';
import { newHit } from '../geometry/ray-shape.ts';
import type { FacePoint } from '../lamps/face.ts';
import type { Lamp, LightModel } from '../light-model/light-model.ts';
import { distance, type Vec3 } from '../math/vec3.ts';
import { emitterOf } from '../transport/lamp-sight.ts';
import { faceLuminance_cd_m2 } from './face-luminance.ts';
import type { FacePoints } from './face-points.ts';
import { inFrame } from './in-frame.ts';
import { passed } from './leg.ts';
import type { Mirror, MirrorPoint } from './reflector.ts';

/** What of a lamp's face an eye sees in a mirror. */
export interface Image {
  /** Where to point at; null where nothing of it is seen. */
  readonly shown: MirrorPoint | null;
  readonly share: number;
}

/** The image of a lamp whose centre is mirrored at `centre`: what is on the surface and clear on both legs. */
export function imageSeen(
  model: LightModel,
  camera: ThinLens,
  lamp: Lamp,
  points: FacePoints,
  mirror: Mirror,
  centre: MirrorPoint,
): Image {
  const eye = camera.position_m;
  const seen: MirrorPoint[] = [];
  const look = (point: FacePoint): boolean => {
    const s = onLampFace(lamp, point);
    const q = mirror.follow(eye, s, centre);
    if (!q || !isLit(lamp, q.point_m, s) || !isClear(model, mirror, eye, s, q)) return false;
    seen.push(q);
    return true;
  };
  const middle = look({ r_m: 0, t_m: 0 });
  const even = points.even.filter(look).length;
  const rim = points.rim.filter(look).length;
  if (seen.length === 0) return { shown: null, share: 0 };
  const framed = seen.filter((q) => inFrame(camera, q.point_m));
  const shown =
    middle && (framed.length === 0 || framed[0] === seen[0])
      ? seen[0]!
      : nearestTo(centre.point_m, framed.length > 0 ? framed : seen);
  const share = even > 0 ? even / points.even.length : rim > 0 ? LEAST_SHARE : 0;
  return { shown, share };
}

/** Of an image of which only the rim is seen. */
const LEAST_SHARE = 0.01;

export function onLampFace({ frame: { origin_m, r, t } }: Lamp, { r_m, t_m }: FacePoint): Vec3 {
  return [
    origin_m[0] + r_m * r[0] + t_m * t[0],
    origin_m[1] + r_m * r[1] + t_m * t[1],
    origin_m[2] + r_m * r[2] + t_m * t[2],
  ];
}

/** Whether the lamp shines from s toward q: not from its back, and not where its file ends. */
function isLit(lamp: Lamp, q: Vec3, s: Vec3): boolean {
  const d = distance(q, s);
  return faceLuminance_cd_m2(emitterOf(lamp), (q[0] - s[0]) / d, (q[1] - s[1]) / d, (q[2] - s[2]) / d) > 0;
}

/** How far off a surface its own presence is probed. */
const PROBE_m = 1e-4;
const hit = newHit();

/** Whether q is on the surface, not in an opening, and both legs are free of opaque things. */
function isClear(model: LightModel, mirror: Mirror, eye: Vec3, s: Vec3, q: MirrorPoint): boolean {
  if (!q.within || !isThere(model, mirror, q)) return false;
  return legIsFree(model, q, eye) && legIsFree(model, q, s);
}

export function isThere(
  { geometry }: LightModel,
  mirror: Mirror,
  { point_m: p, normal: n }: MirrorPoint,
): boolean {
  return (
    nearestHit(
      geometry,
      p[0] + PROBE_m * n[0],
      p[1] + PROBE_m * n[1],
      p[2] + PROBE_m * n[2],
      -n[0],
      -n[1],
      -n[2],
      0,
      2 * PROBE_m,
      hit,
    ) && mirror.holds(hit.shape)
  );
}

export function legIsFree(model: LightModel, { point_m: q }: MirrorPoint, to: Vec3): boolean {
  const d = distance(q, to);
  return d > 0 && passed(model, q, (to[0] - q[0]) / d, (to[1] - q[1]) / d, (to[2] - q[2]) / d, d) > 0;
}

function nearestTo(point: Vec3, candidates: readonly MirrorPoint[]): MirrorPoint {
  return candidates.reduce((best, q) =>
    distance(q.point_m, point) < distance(best.point_m, point) ? q : best,
  );
}
