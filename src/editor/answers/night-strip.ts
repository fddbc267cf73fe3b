import { clockTime, parseInstant } from '../../scene/night/instant.ts';
import type { SkyCurve } from '../worker/answer-sky-curve.ts';

/** A night from noon to noon as a chart: everything in hours since the first noon and in degrees over the horizon. */
export interface NightStrip {
  readonly hours: number;
  readonly start_h: number;
  readonly dark: readonly { readonly from_h: number; readonly to_h: number }[];
  /** Full hours of the clock on set, every third. */
  readonly ticks: readonly { readonly at_h: number; readonly time: string }[];
}

export function nightStrip({ report }: SkyCurve): NightStrip {
  const noon = parseInstant(report.fromNoon);
  const since_h = (iso: string) => 24 * (parseInstant(iso).ut_days - noon.ut_days);
  const hours = since_h(report.toNoon);
  const { time } = clockTime(noon);
  const minutes = Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
  const ticks: { at_h: number; time: string }[] = [];
  for (let hour = Math.ceil(minutes / 60); ; hour++) {
    const at_h = hour - minutes / 60;
    if (at_h > hours) break;
    if (hour % 3 === 0) ticks.push({ at_h, time: `${String(hour % 24).padStart(2, '0')}:00` });
  }
  return {
    hours,
    start_h: since_h(report.start),
    dark: (report.dark?.spans ?? []).map(({ from, to }) => ({ from_h: since_h(from), to_h: since_h(to) })),
    ticks,
  };
}
