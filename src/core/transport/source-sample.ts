import type { Vec3 } from '../math/vec3.ts';

/** A meter held somewhere: where its receptor is and the unit direction it points. */
export interface MeterPoint {
  readonly position_m: Vec3;
  readonly facing: Vec3;
}

/** What one sample of a source gives a meter, as an estimate of the whole source. Reused, to spare allocation. */
export interface SourceSample {
  flat_lx: number;
  dome_lx: number;
  /** The same with nothing in the way. */
  unblockedFlat_lx: number;
  unblockedDome_lx: number;
  /** 1 where the straight line is free of opaque things, panes or not; 0 where it is blocked. */
  open: number;
}

/** Evaluates the sample of a source at a point of the unit square. */
export type SourceSampler = (u: number, v: number, sample: SourceSample) => void;

export function emptySample(): SourceSample {
  return { flat_lx: 0, dome_lx: 0, unblockedFlat_lx: 0, unblockedDome_lx: 0, open: 0 };
}

/**
 * A ray leaves its start and stops short of its end by this much, so that a meter laid on a surface does not shade
 * itself by rounding: 10 µm, or 1e-7 of the way where that is more.
 */
export function clearance_m(distance_m: number): number {
  return Math.max(1e-5, 1e-7 * distance_m);
}
