import type { MarkReport, MeterReport } from '../meter/meter-scene.ts';

/** What a mark loses when a lamp, or every lamp of a supply, goes out. */
export interface Loss {
  readonly what: 'lamp' | 'supply';
  readonly id: string;
  readonly name: string;
  readonly lamps: readonly string[];
  readonly marks: readonly MarkLoss[];
}

export interface MarkLoss {
  readonly id: string;
  /** Change of the reading in stops, none or below zero; −Infinity where nothing is left. */
  readonly change_stops: number;
  /** The reading that is left, over the camera's zero. */
  readonly stops: number;
}

/** Something that may fail, and the lamps that go out with it. */
export interface Failure {
  readonly what: Loss['what'];
  readonly id: string;
  readonly name: string;
  readonly lamps: readonly string[];
}

/** Light adds up, so that one metering answers for every loss. Marks that are dark already have nothing to lose. */
export function lossesOf(report: MeterReport, failures: readonly Failure[]): Loss[] {
  return failures.map((failure) => ({
    ...failure,
    marks: report.marks.map((mark) => {
      const change_stops = changeOf(mark, failure.lamps);
      return { id: mark.id, change_stops, stops: mark.stops + change_stops };
    }),
  }));
}

function changeOf(mark: MarkReport, lamps: readonly string[]): number {
  const whole = mark.illuminance_lx;
  if (whole <= 0) return 0;
  const rest = mark.lamps
    .filter((lamp) => !lamps.includes(lamp.id))
    .reduce((sum, lamp) => sum + lamp.illuminance_lx, mark.sky_lx);
  return Math.min(0, Math.log2(rest / whole));
}
