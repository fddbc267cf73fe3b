import { distributionFrom } from '../../core/photometry/lamp-photometry.ts';
import type { Head } from '../schema/head.ts';
import type { Lamp } from '../schema/lamp.ts';
import { levelToward, rightTurn_deg } from './directions.ts';
import type { Subject } from './subject.ts';

/** What a lamp is there for. */
export const LAMP_JOBS = ['key', 'fill', 'back', 'rim'] as const;
export type LampJob = (typeof LAMP_JOBS)[number];

/** Where a lamp of a job goes at first; all of it common practice, no source, and there to be changed. */
export interface JobPlan {
  readonly name: string;
  /** From the subject: turned to the right of the direction to the camera, as the subject sees it. */
  readonly around_deg: number;
  /** Above the subject, as the subject sees it. */
  readonly above_deg: number;
  readonly nearest_m: number;
  readonly farthest_m: number;
  /** What it is to read there, in stops from the camera's zero. */
  readonly wanted_stops: number;
  readonly head: string;
}

export const JOB_PLANS: Readonly<Record<LampJob, JobPlan>> = {
  key: {
    name: 'Key',
    around_deg: 45,
    above_deg: 25,
    nearest_m: 1.5,
    farthest_m: 8,
    wanted_stops: 0,
    head: 'led-softbox-120',
  },
  fill: {
    name: 'Fill',
    around_deg: -35,
    above_deg: 12,
    nearest_m: 2,
    farthest_m: 8,
    wanted_stops: -2,
    head: 'led-softbox-120',
  },
  back: {
    name: 'Backlight',
    around_deg: 180,
    above_deg: 8,
    nearest_m: 8,
    farthest_m: 25,
    wanted_stops: 1,
    head: 'discharge-1800-flood',
  },
  rim: {
    name: 'Rim',
    around_deg: 145,
    above_deg: 25,
    nearest_m: 2.5,
    farthest_m: 9,
    wanted_stops: 0.7,
    head: 'led-head-spot',
  },
};

/** Candela on the axis; null where only a photometric file would tell. */
export function peakOf_cd({ photometry }: Head): number | null {
  if (photometry.kind === 'file') return null;
  const distribution = distributionFrom(photometry);
  return 'peak_cd' in distribution ? distribution.peak_cd : null;
}

const STRONG_cd = 60_000;
const SOFT_beam_deg = 80;

/** What one more lamp with this head would most usefully be: a key where the front is dark, and so on round the subject. */
export function jobFor(head: Head, subject: Subject, lamps: readonly Lamp[]): LampJob {
  const round = lamps.map((lamp) =>
    Math.abs(rightTurn_deg(subject.toCamera, levelToward(subject.aim_m, lamp.position_m))),
  );
  const inFront = round.some((angle) => angle < 90);
  const behind = round.some((angle) => angle >= 90);
  const { photometry } = head;
  const soft = !('beam_deg' in photometry) || photometry.beam_deg >= SOFT_beam_deg;
  if (soft) return inFront ? 'fill' : 'key';
  if ((peakOf_cd(head) ?? 0) >= STRONG_cd) return behind ? 'key' : 'back';
  if (!inFront) return 'key';
  return behind ? 'fill' : 'rim';
}
