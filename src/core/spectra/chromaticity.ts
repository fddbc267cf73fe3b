import type { Tristimulus } from './observer.ts';

/** CIE 1931 chromaticity x = X/(X+Y+Z), y = Y/(X+Y+Z). NaN for no light. */
export function xyOf([X, Y, Z]: Tristimulus): { readonly x: number; readonly y: number } {
  const sum = X + Y + Z;
  return { x: X / sum, y: Y / sum };
}

/** A point of the CIE 1960 UCS diagram, the one in which correlated colour temperature is defined (CIE 15:2018). */
export interface Uv1960 {
  readonly u: number;
  readonly v: number;
}

/** u = 4X/(X+15Y+3Z), v = 6Y/(X+15Y+3Z). NaN for no light. */
export function uv1960Of([X, Y, Z]: Tristimulus): Uv1960 {
  const D = X + 15 * Y + 3 * Z;
  return { u: (4 * X) / D, v: (6 * Y) / D };
}

/** The same point from CIE 1931 x, y. */
export function uv1960FromXy(x: number, y: number): Uv1960 {
  const D = -2 * x + 12 * y + 3;
  return { u: (4 * x) / D, v: (6 * y) / D };
}

/** CIE 1976 u′ = 4X/(X+15Y+3Z), v′ = 9Y/(X+15Y+3Z), the diagram to quote a colour in (CIE 15:2018). NaN for no light. */
export function uvPrimeOf(XYZ: Tristimulus): readonly [number, number] {
  const { u, v } = uv1960Of(XYZ);
  return [u, 1.5 * v];
}
