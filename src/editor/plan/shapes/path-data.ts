import type { Flat } from '../drawing/projection.ts';

/** An SVG path to the millimetre. A ring is closed; two points are a line there and back. */
export function ringPath(points: readonly Flat[]): string {
  return points.length === 0 ? '' : `${linePath(points)}Z`;
}

export function linePath(points: readonly Flat[]): string {
  return points.map(([u, v], i) => `${i === 0 ? 'M' : 'L'}${millimetres(u)} ${millimetres(v)}`).join('');
}

function millimetres(length_m: number): number {
  return Math.round(length_m * 1000) / 1000 + 0;
}
