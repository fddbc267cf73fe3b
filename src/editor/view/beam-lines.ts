import { BufferGeometry, Float32BufferAttribute } from 'three';
import type { PlaneAngles } from '../../core/photometry/beam-angle.ts';

const RING_SEGMENTS = 64;
const EDGES = 8;

/**
 * The edge of a beam as lines, for a slant length of 1: straight edges from the lamp, and the ring where they end. Local
 * x is the lamp's right, y its top, −z its axis. Between the two planes that were measured the angle goes round an
 * ellipse. Rings lie on a sphere about the lamp, so that angles up to 360° can be drawn.
 */
export function beamLines({ c0_deg, c90_deg }: PlaneAngles): BufferGeometry {
  const points: number[] = [];
  const edge = (turn: number): [number, number, number] => {
    const half_deg = ellipse(c0_deg / 2, c90_deg / 2, turn);
    const half = (half_deg * Math.PI) / 180;
    return [Math.sin(half) * Math.cos(turn), Math.sin(half) * Math.sin(turn), -Math.cos(half)];
  };
  for (let i = 0; i < RING_SEGMENTS; i++) {
    points.push(...edge((2 * Math.PI * i) / RING_SEGMENTS), ...edge((2 * Math.PI * (i + 1)) / RING_SEGMENTS));
  }
  for (let i = 0; i < EDGES; i++) points.push(0, 0, 0, ...edge((2 * Math.PI * i) / EDGES));
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(points, 3));
  return geometry;
}

function ellipse(a: number, b: number, turn: number): number {
  if (a <= 0 || b <= 0) return 0;
  return 1 / Math.hypot(Math.cos(turn) / a, Math.sin(turn) / b);
}
