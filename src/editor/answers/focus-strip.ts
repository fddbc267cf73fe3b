import type { LensReport } from '../../scene/framing/lens-report.ts';

/** Places along a strip of distances, 0..1 from its left end. */
export interface FocusStrip {
  readonly near: number;
  /** 1 where the sharp range has no end. */
  readonly far: number;
  readonly focus: number;
  readonly ticks: readonly { readonly distance_m: number; readonly at: number }[];
  /** In front of the lens only. */
  readonly marks: readonly {
    readonly id: string;
    readonly name: string;
    readonly at: number;
    readonly sharp: boolean;
  }[];
}

const ROUND_m = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
/**
 * By the logarithm of the distance, from half the nearest thing of interest to twice the farthest. Words nearer to each other
 * than `leastGap` would run together.
 */
export function focusStrip({ lens, marks }: LensReport, leastGap: number): FocusStrip {
  const { near_m, far_m, focus_m } = lens;
  const inFront = marks.filter(({ distance_m }) => distance_m > lens.focal_mm / 1000);
  const interest = [near_m, focus_m, ...(far_m === null ? [] : [far_m]), ...inFront.map((m) => m.distance_m)];
  const low = Math.log(Math.min(...interest) / 2);
  const high = Math.log(Math.max(...interest) * 2);
  const at = (distance_m: number) => (Math.log(distance_m) - low) / (high - low);
  const ticks: { distance_m: number; at: number }[] = [];
  for (const distance_m of ROUND_m) {
    const place = at(distance_m);
    const gap = place - (ticks.at(-1)?.at ?? Number.NEGATIVE_INFINITY);
    if (place > leastGap / 2 && place < 1 - leastGap / 2 && gap > leastGap)
      ticks.push({ distance_m, at: place });
  }
  return {
    near: at(near_m),
    far: far_m === null ? 1 : at(far_m),
    focus: at(focus_m),
    ticks,
    marks: inFront.map(({ id, name, distance_m, sharp }) => ({ id, name, at: at(distance_m), sharp })),
  };
}
