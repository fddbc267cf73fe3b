/**
 * Where a circle mirrors one point for another, all in its plane (Alhazen's problem): the angles φ at which
 *
 *   g(φ) = τ·((c − p)/|c − p| + (s − p)/|s − p|) = 0,   p = R·(cos φ, sin φ),   τ = (−sin φ, cos φ),
 *
 * the tangential parts of both ways cancelling, with c and s on one side of the tangent. From outside there is one, between
 * the directions of c and s from the centre, or none where the circle hides s; from inside there may be up to four.
 * By bisection, to rounding.
 */
export interface PlanePoints {
  readonly cx: number;
  readonly cy: number;
  readonly sx: number;
  readonly sy: number;
}

const BISECTIONS = 48;
/** How finely the inside of a circle is looked over for changes of sign. */
const STEPS = 48;

/** The angle on the outside of a circle; null where there is none. */
export function outerReflection(radius: number, points: PlanePoints): number | null {
  const { cx, cy, sx, sy } = points;
  if (cx * cx + cy * cy <= radius * radius || sx * sx + sy * sy <= radius * radius) return null;
  const from = Math.atan2(cy, cx);
  const span = signedTurn(Math.atan2(sy, sx) - from);
  const phi = bisected(radius, points, from, from + span);
  return isBefore(radius, points, phi, 1) ? phi : null;
}

/** The angles on the inside of a circle, each within `half` of the angle `middle`. */
export function innerReflections(
  radius: number,
  points: PlanePoints,
  middle: number,
  half: number,
): number[] {
  const found: number[] = [];
  const step = (2 * half) / STEPS;
  let before = Number.NaN;
  for (let i = 0; i <= STEPS; i++) {
    const phi = middle - half + i * step;
    // Where either looks at the outer side there is nothing to find.
    const here = isBefore(radius, points, phi, -1) ? tangential(radius, points, phi) : Number.NaN;
    if (before > 0 ? here <= 0 : before <= 0 && here > 0) {
      const root = bisected(radius, points, phi - step, phi);
      if (isBefore(radius, points, root, -1)) found.push(root);
    }
    before = here;
  }
  return found;
}

function tangential(radius: number, { cx, cy, sx, sy }: PlanePoints, phi: number): number {
  const [c, s] = [Math.cos(phi), Math.sin(phi)];
  const [ax, ay] = [cx - radius * c, cy - radius * s];
  const [bx, by] = [sx - radius * c, sy - radius * s];
  const a = Math.sqrt(ax * ax + ay * ay) || 1;
  const b = Math.sqrt(bx * bx + by * by) || 1;
  return (c * ay - s * ax) / a + (c * by - s * bx) / b;
}

function bisected(radius: number, points: PlanePoints, from: number, to: number): number {
  let low = from;
  let high = to;
  const rising = tangential(radius, points, low) < 0;
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (low + high) / 2;
    if (tangential(radius, points, middle) < 0 === rising) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Whether both points are on the outer (1) or the inner (−1) side of the tangent. */
function isBefore(radius: number, { cx, cy, sx, sy }: PlanePoints, phi: number, side: 1 | -1): boolean {
  const [c, s] = [Math.cos(phi), Math.sin(phi)];
  return side * (cx * c + cy * s - radius) > 0 && side * (sx * c + sy * s - radius) > 0;
}

/** The same angle within −π..π. */
export function signedTurn(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}
