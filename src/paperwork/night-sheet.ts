import { CLEAR_SKY_STOPS, OVERCAST_STOPS } from '../core/sky/night-sky.ts';
import type { NightEventName, NightReport, SkyAt } from '../scene/night/night-report.ts';
import { significant } from './exposure-sheet.ts';

/** The night's sheet as data: when it gets dark, where the moon is, how much light the sky gives. */
export interface NightSheet {
  readonly title: string;
  readonly heading: string;
  readonly twilight: readonly (readonly string[])[];
  readonly hours: readonly (readonly string[])[];
  readonly findings: readonly string[];
  readonly footer: readonly string[];
}

export function nightSheet(report: NightReport): NightSheet {
  const { events } = report;
  const row = (what: string, evening: NightEventName, morning: NightEventName) => [
    what,
    timeText(events[evening]),
    timeText(events[morning]),
  ];
  return {
    title: report.title,
    heading: [
      placeText(report),
      `night of ${dateOf(report.fromNoon)} to ${dateOf(report.toNoon)}`,
      `clock UTC${offsetOf(report.start)}`,
      ...(report.camera === null ? [] : [`camera ${report.camera}`]),
    ].join(' · '),
    twilight: [
      ['', 'Evening', 'Morning'],
      row('Sunset, sunrise', 'sunset', 'sunrise'),
      row('Civil twilight, sun 6° under', 'civilDusk', 'civilDawn'),
      row('Nautical, 12° under', 'nauticalDusk', 'nauticalDawn'),
      row('Astronomical, 18° under', 'astronomicalDusk', 'astronomicalDawn'),
    ],
    hours: [
      ['Time', 'Sun', 'Moon', 'from', 'Sky, lx', ...(report.camera === null ? [] : ['Stops'])],
      ...report.hours.map(hourRow),
    ],
    findings: [...polarTexts(report), ...darkTexts(report), ...moonTexts(report), ...sceneSkyTexts(report)],
    footer: [
      `Sky is what clear sky gives level, open ground: sun and twilight, moon, stars (published fits); ±${CLEAR_SKY_STOPS} stop. ` +
        `Cloud takes up to ${OVERCAST_STOPS.toFixed(1)} stops of sun and moon. Town glow and street light are not in it: meter them.`,
      ...(report.camera === null
        ? []
        : ['Stops are over the camera’s zero for a flat receptor, laid level.']),
      'Altitudes are of the centre, without refraction; times to ±2 min for a level horizon: hills and houses hide the sun and ' +
        'the moon sooner. Summer time is what the scene’s start says.',
    ],
  };
}

function hourRow(hour: SkyAt): string[] {
  const { at, sun, moon, total_lx, stops } = hour;
  const up = moon.altitude_deg > 0;
  return [
    timeText(at),
    degrees(sun.altitude_deg),
    up ? degrees(moon.altitude_deg) : 'down',
    up ? compassText(moon.azimuth_deg) : '',
    skyText(total_lx),
    ...(stops === null ? [] : [signed(stops)]),
  ];
}

function polarTexts({ events, lowestSun_deg, highestSun_deg }: NightReport): string[] {
  const texts: string[] = [];
  if (highestSun_deg < -0.833) texts.push(`The sun does not rise: at noon it is ${degrees(highestSun_deg)}.`);
  else if (events.sunset === null && events.sunrise === null && lowestSun_deg > -0.833)
    texts.push(`The sun does not set: lowest ${degrees(lowestSun_deg)}.`);
  const never = [
    [-6, 'civil'],
    [-12, 'nautical'],
    [-18, 'astronomical'],
  ] as const;
  const missed = never.find(([altitude]) => lowestSun_deg > altitude);
  if (missed)
    texts.push(
      `The sun never gets ${-missed[0]}° under (lowest ${degrees(lowestSun_deg)}): ${missed[1]} twilight lasts all night.`,
    );
  return texts;
}

function darkTexts({ dark, camera, atStart, start }: NightReport): string[] {
  if (dark === null) return ['The scene has no camera, so nothing says what is dark enough.'];
  const { limit_lx, under_stops, spans, brightest } = dark;
  const rule = `clear sky ${significant(under_stops)} stops or more under camera ${camera}, that is under ${skyText(limit_lx)} lx`;
  if (spans.length === 0)
    return [
      `Never dark enough this night (${rule}): the ${brightest === 'stars' ? 'night sky' : brightest} is too bright.`,
    ];
  const when = spans.map(({ from, to }) => `${timeText(from)} to ${timeText(to)}`).join(' and ');
  return [
    `Dark enough from ${when} (${rule}).`,
    `At the start, ${timeText(start)}: ${dark.atStart ? 'dark enough' : 'NOT dark enough'}, sky ${skyText(atStart.total_lx)} lx, ` +
      `${signed(atStart.stops!)} stops.`,
  ];
}

function moonTexts(report: NightReport): string[] {
  const { moon, atStart, start } = report;
  const { altitude_deg, azimuth_deg } = atStart.moon;
  const texts = [`Moon: ${moon.phase}, ${Math.round(moon.lit * 100)} % lit; ${moonNightText(report)}.`];
  if (altitude_deg > 0)
    texts.push(
      `At ${timeText(start)} moonlight comes from ${compassText(azimuth_deg)} (${Math.round(azimuth_deg)}°), ` +
        `${degrees(altitude_deg)} up, ${skyText(atStart.moon_lx)} lx; shadows fall to ${compassText(azimuth_deg + 180)}.`,
    );
  else texts.push(`At ${timeText(start)} the moon is down.`);
  return texts;
}

/** Rising and setting between sunset and sunrise, in order; times of one clock sort as text. */
function moonNightText({ events, hours, atStart, fromNoon, toNoon }: NightReport): string {
  const [dusk, dawn] = [events.sunset ?? fromNoon, events.sunrise ?? toNoon];
  const happens = [
    { at: events.moonrise, what: 'rises' },
    { at: events.moonset, what: 'sets' },
  ].flatMap(({ at, what }) => (at !== null && at > dusk && at < dawn ? [{ at, what }] : []));
  happens.sort((a, b) => (a.at < b.at ? -1 : 1));
  const texts = happens.map(({ at, what }) => `${what} ${timeText(at)}`);
  const first = happens[0];
  if (!first) return (hours[0] ?? atStart).moon.altitude_deg > 0 ? 'up all night' : 'down all night';
  return `${first.what === 'sets' ? 'up' : 'down'} at sunset, ${texts.join(', ')}`;
}

function sceneSkyTexts({ sceneSky, atStart, uncertainty_stops }: NightReport): string[] {
  if (sceneSky === null) return ['The scene states no sky (site.sky); these figures are for open country.'];
  const { illuminance_lx, overClear_stops } = sceneSky;
  const about = `The scene takes its sky for ${skyText(illuminance_lx)} lx`;
  if (illuminance_lx === 0)
    return [`${about}; a clear sky at its start gives ${skyText(atStart.total_lx)} lx.`];
  if (Math.abs(overClear_stops) <= uncertainty_stops)
    return [`${about}, which agrees with a clear sky at its start (${signed(overClear_stops)} stops).`];
  if (overClear_stops > 0)
    return [
      `${about}, ${overClear_stops.toFixed(1)} stops over a clear sky at its start (${skyText(atStart.total_lx)} lx): ` +
        'right where a town or street lamps light it; meter it there.',
    ];
  return [
    `${about}, ${(-overClear_stops).toFixed(1)} stops under a clear sky at its start (${skyText(atStart.total_lx)} lx): ` +
      (overClear_stops < -OVERCAST_STOPS
        ? 'no cloud takes so much; the start is too early or late for that sky.'
        : 'only heavy cloud or a roof would do that.'),
  ];
}

const POINTS = [
  ...['N', 'NNE', 'NE', 'ENE', 'E', 'ESE', 'SE', 'SSE'],
  ...['S', 'SSW', 'SW', 'WSW', 'W', 'WNW', 'NW', 'NNW'],
];

/** Nearest of the sixteen points of the compass. */
export function compassText(azimuth_deg: number): string {
  return POINTS[((Math.round(azimuth_deg / 22.5) % 16) + 16) % 16]!;
}

function placeText({ latitude_deg, longitude_deg }: NightReport): string {
  const side = (value: number, positive: string, negative: string) =>
    `${Math.abs(value)}° ${value < 0 ? negative : positive}`;
  return `${side(latitude_deg, 'N', 'S')}, ${side(longitude_deg, 'E', 'W')}`;
}

function dateOf(iso: string): string {
  return iso.slice(0, 10);
}

function timeText(iso: string | null): string {
  return iso === null ? '–' : iso.slice(11, 16);
}

function offsetOf(iso: string): string {
  const offset = iso.slice(16);
  return offset === '+00:00' ? '' : offset;
}

function degrees(altitude_deg: number): string {
  const text = Math.abs(altitude_deg).toFixed(Math.abs(altitude_deg) < 10 ? 1 : 0);
  return `${altitude_deg < 0 && Number(text) !== 0 ? '−' : ''}${text}°`;
}

/** Two figures: what is known to a stop has no more. */
function skyText(illuminance_lx: number): string {
  if (illuminance_lx === 0) return '0';
  const decimals = Math.max(0, 1 - Math.floor(Math.log10(illuminance_lx)));
  return illuminance_lx >= 100
    ? String(Number(illuminance_lx.toPrecision(2)))
    : String(Number(illuminance_lx.toFixed(decimals)));
}

function signed(stops: number): string {
  return `${stops < 0 ? '−' : '+'}${Math.abs(stops).toFixed(1)}`;
}
