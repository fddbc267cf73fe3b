/**
 * Lamp light that reaches a point by one stop on the way: the direction it comes from, the lamp it began at, and what it
 * gives a receptor square to that direction, in linear RGB (lx), as an estimate of all light of its kind.
 */
export interface Connection {
  lamp: number;
  wx: number;
  wy: number;
  wz: number;
  r: number;
  g: number;
  b: number;
}

export function newConnection(): Connection {
  return { lamp: -1, wx: 0, wy: 0, wz: 0, r: 0, g: 0, b: 0 };
}

/**
 * What weighs a connection where it arrives, for choosing among candidates: a surface counts light by its cosine, a
 * meter by its dome, which is never less than half its flat cell, haze takes it from all sides.
 */
export type Arrival = 'surface' | 'meter' | 'haze';

export function arrivalWeight(arrival: Arrival, cosine: number): number {
  if (arrival === 'surface') return Math.max(0, cosine);
  return arrival === 'meter' ? (1 + cosine) / 2 : 1;
}

/** Density, per steradian, with which the path at hand chooses a direction from where it stands. */
export type PathDensity = (wx: number, wy: number, wz: number) => number;

/** Index chosen with a chance proportional to its weight; −1 when all weights are 0. */
export function chosenByWeight(weights: Float64Array, count: number, total: number, u: number): number {
  if (!(total > 0)) return -1;
  let left = u * total;
  let last = -1;
  for (let i = 0; i < count; i++) {
    if (weights[i]! === 0) continue;
    last = i;
    left -= weights[i]!;
    if (left < 0) return i;
  }
  return last;
}
