/**
 * Instants without a clock: days of Universal Time since 2000-01-01 12:00 (J2000), as almanacs count, and the offset of the
 * clock on set. Gregorian calendar. Leap seconds are not known to either side, so UT stands for UTC (within a second).
 */
export interface Instant {
  readonly ut_days: number;
  /** Minutes that the clock on set is ahead of UTC. */
  readonly offset_min: number;
}

const MINUTES_PER_DAY = 1440;
/** From 1970-01-01 to 2000-01-01. */
const DAYS_1970_TO_2000 = 10_957;
const ISO = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?(?:Z|([+-])(\d{2}):?(\d{2}))$/;

/** From an ISO 8601 date and time with its offset, as the document holds it. RangeError for anything else. */
export function parseInstant(iso: string): Instant {
  const match = ISO.exec(iso);
  if (!match) throw new RangeError(`"${iso}" is no date and time such as 2027-03-04T20:00:00+01:00`);
  const [, year, month, day, hour, minute, second, sign, offsetHour, offsetMinute] = match;
  const offset_min =
    sign === undefined ? 0 : (sign === '-' ? -1 : 1) * (Number(offsetHour) * 60 + Number(offsetMinute));
  const minutes = Number(hour) * 60 + Number(minute) + Number(second ?? 0) / 60 - offset_min;
  const days = daysSince2000(Number(year), Number(month), Number(day));
  return { ut_days: days - 0.5 + minutes / MINUTES_PER_DAY, offset_min };
}

/** What the clock on set shows, to the nearest minute. */
export interface ClockTime {
  /** 2027-03-04 */
  readonly date: string;
  /** 18:02 */
  readonly time: string;
  /** Days since J2000's date, to tell one night's dates apart. */
  readonly day: number;
}

export function clockTime({ ut_days, offset_min }: Instant): ClockTime {
  const minutes = Math.round((ut_days + 0.5) * MINUTES_PER_DAY) + offset_min;
  const day = Math.floor(minutes / MINUTES_PER_DAY);
  const ofDay = minutes - day * MINUTES_PER_DAY;
  return { date: dateText(day), time: `${two(Math.floor(ofDay / 60))}:${two(ofDay % 60)}`, day };
}

/** 2027-03-04T18:02+00:00, to the nearest minute. */
export function isoText(instant: Instant): string {
  const { date, time } = clockTime(instant);
  return `${date}T${time}${offsetText(instant.offset_min)}`;
}

/** +01:00 */
export function offsetText(offset_min: number): string {
  const size = Math.abs(offset_min);
  return `${offset_min < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** Days of the proleptic Gregorian calendar, counted in years that begin in March (a common algorithm). */
function daysSince2000(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const ofEra = y - era * 400;
  const ofYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const days = ofEra * 365 + Math.floor(ofEra / 4) - Math.floor(ofEra / 100) + ofYear;
  return era * 146_097 + days - 719_468 - DAYS_1970_TO_2000;
}

function dateText(daysSince2000: number): string {
  const shifted = daysSince2000 + DAYS_1970_TO_2000 + 719_468;
  const era = Math.floor(shifted / 146_097);
  const ofEra = shifted - era * 146_097;
  const y = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const ofYear = ofEra - (365 * y + Math.floor(y / 4) - Math.floor(y / 100));
  const m = Math.floor((5 * ofYear + 2) / 153);
  const day = ofYear - Math.floor((153 * m + 2) / 5) + 1;
  const month = m < 10 ? m + 3 : m - 9;
  const year = y + era * 400 + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

function two(value: number): string {
  return String(value).padStart(2, '0');
}
