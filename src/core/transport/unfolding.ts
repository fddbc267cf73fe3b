import type { FlatFace } from '../geometry/flat-face.ts';

/**
 * A lamp's point s unfolded through the plane of a glossy face, as seen from x: where the straight line to the image meets
 * the plane (q₀), and how a microfacet slope moves that point. With d₁, d₂ from q₀ to s and x, differentiating the half
 * vector gives slope = J·(q − q₀),
 *
 *   J = (1/d₁ + 1/d₂)/(2·cos θ)·(1 − t·tᵀ),   t the tangential part of the ray,   det J = (1/d₁ + 1/d₂)²/4,
 *
 * so that along the plane of incidence a slope moves the point 1/cos²θ as far as across it.
 */
export interface Unfolding {
  /** 1 or −1: the side of the face, along its n, that x and s are on. */
  side: number;
  /** q₀ in the face's own axes, metres from its centre. */
  qu: number;
  qv: number;
  /** Unit tangential direction from x toward the image, in the face's own axes. */
  eu: number;
  ev: number;
  /** d₁ + d₂, d₂/(d₁ + d₂), cos θ and 1/d₁ + 1/d₂ at q₀. */
  whole_m: number;
  share: number;
  cosine: number;
  curve: number;
}

export function newUnfolding(): Unfolding {
  return { side: 1, qu: 0, qv: 0, eu: 1, ev: 0, whole_m: 0, share: 0, cosine: 0, curve: 0 };
}

/** False where x or s does not stand before the face, on one side of it. */
export function unfold(
  face: FlatFace,
  px: number,
  py: number,
  pz: number,
  sx: number,
  sy: number,
  sz: number,
  found: Unfolding,
): boolean {
  const { centre_m: c, u, v, n } = face;
  const [ax, ay, az] = [px - c[0], py - c[1], pz - c[2]];
  const [bx, by, bz] = [sx - c[0], sy - c[1], sz - c[2]];
  const heightX = ax * n[0] + ay * n[1] + az * n[2];
  const heightS = bx * n[0] + by * n[1] + bz * n[2];
  const side = heightX > 0 ? 1 : -1;
  if ((side < 0 && face.oneSided) || side * heightX < 1e-9 || side * heightS < 1e-9) return false;
  const share = heightX / (heightX + heightS);
  const tu = (bx - ax) * u[0] + (by - ay) * u[1] + (bz - az) * u[2];
  const tv = (bx - ax) * v[0] + (by - ay) * v[1] + (bz - az) * v[2];
  const t = Math.sqrt(tu * tu + tv * tv);
  const heights = side * (heightX + heightS);
  const whole = Math.sqrt(t * t + heights * heights);
  found.side = side;
  found.share = share;
  found.whole_m = whole;
  found.cosine = heights / whole;
  found.curve = 1 / (share * whole) + 1 / ((1 - share) * whole);
  found.qu = ax * u[0] + ay * u[1] + az * u[2] + share * tu;
  found.qv = ax * v[0] + ay * v[1] + az * v[2] + share * tv;
  found.eu = t > 1e-12 ? tu / t : 1;
  found.ev = t > 1e-12 ? tv / t : 0;
  return true;
}

/** Density, per m² of the face, of the slopes of GGX at q; the inverse of how a slope is drawn and moves q₀. */
export function unfoldedDensity(
  { qu, qv, eu, ev, cosine, curve }: Unfolding,
  alpha: number,
  u: number,
  v: number,
): number {
  const [du, dv] = [u - qu, v - qv];
  const along = ((du * eu + dv * ev) * curve * cosine) / 2;
  const across = ((dv * eu - du * ev) * curve) / (2 * cosine);
  const a2 = alpha * alpha;
  const spread = 1 + (along * along + across * across) / a2;
  return (curve * curve) / (4 * Math.PI * a2 * spread * spread);
}
