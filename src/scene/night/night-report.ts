import { Observer } from 'astronomy-engine';
import { stopsAbove } from '../../core/exposure/stops.ts';
import { zeroOf } from '../../core/exposure/zero.ts';
import { spansWhere } from '../../core/math/spans.ts';
import { CLEAR_SKY_STOPS } from '../../core/sky/night-sky.ts';
import { calibrationOf, chosenCamera, exposureOf } from '../camera/scene-camera.ts';
import { problemAt, SceneError } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';
import { isoText, parseInstant } from './instant.ts';
import { nightEvents } from './night-events.ts';
import { type Moon, moonAt, type SkyState, skyState } from './sun-and-moon.ts';

/** Sun, moon and twilight of a scene's night: the answer of `keyfall night --json`, field by field. */
export interface NightReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  /** Null where the scene has no camera: then nothing is called dark. */
  readonly camera: string | null;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  /** Instants are ISO 8601 to the minute, by the clock of `site.place.start`. */
  readonly start: string;
  /** The night runs from one noon by the sun to the next. */
  readonly fromNoon: string;
  readonly toNoon: string;
  readonly events: Readonly<Record<NightEventName, string | null>>;
  readonly lowestSun_deg: number;
  readonly highestSun_deg: number;
  readonly moon: Moon;
  readonly atStart: SkyAt;
  /** Every full hour of the clock from sunset to sunrise, or all night where there is none. */
  readonly hours: readonly SkyAt[];
  /** Null without a camera. */
  readonly dark: DarkEnough | null;
  /** What the scene takes its sky to be, against a clear one at its start; null where it says nothing. */
  readonly sceneSky: { readonly illuminance_lx: number; readonly overClear_stops: number } | null;
  /** ± of every illuminance, clear sky. */
  readonly uncertainty_stops: number;
}

export type NightEventName =
  | 'sunset'
  | 'civilDusk'
  | 'nauticalDusk'
  | 'astronomicalDusk'
  | 'astronomicalDawn'
  | 'nauticalDawn'
  | 'civilDawn'
  | 'sunrise'
  | 'moonrise'
  | 'moonset';

export interface SkyAt extends SkyState {
  readonly at: string;
  /** Over the camera's zero of a flat receptor; null without a camera. */
  readonly stops: number | null;
}

export interface DarkEnough {
  /** The sky is dark enough from so many stops under the camera's zero of a flat, level receptor on. */
  readonly under_stops: number;
  readonly limit_lx: number;
  readonly spans: readonly { readonly from: string; readonly to: string }[];
  readonly atStart: boolean;
  /** What is brightest of the sky when it is darkest. */
  readonly brightest: 'sun' | 'moon' | 'stars';
}

export interface NightRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  readonly under_stops?: number | undefined;
}

/** Common practice, no source: six stops under, a sky adds nothing to shadows that one would see. */
export const DEFAULT_UNDER_STOPS = 6;
const HOUR_days = 1 / 24;
const LOOK_EVERY_days = 5 / 1440;

/** Of a scene whose setup has been applied. Throws SceneError where the scene says no place. */
export function nightReport(document: SceneDocument, request: NightRequest = {}): NightReport {
  const place = document.site?.place;
  if (!place) {
    const expected = 'latitude_deg, longitude_deg and start, such as 2027-03-04T20:00:00+01:00';
    throw new SceneError([problemAt(document, ['site', 'place'], { found: 'no place', expected })]);
  }
  const observer = new Observer(place.latitude_deg, place.longitude_deg, 0);
  const start = parseInstant(place.start);
  const clock = (ut_days: number) => isoText({ ut_days, offset_min: start.offset_min });
  const zero_lx = zeroOfCamera(document, request.camera);
  const skyAt = (ut_days: number): SkyAt => {
    const sky = skyState(observer, ut_days);
    return {
      at: clock(ut_days),
      ...sky,
      stops: zero_lx === null ? null : stopsAbove(sky.total_lx, zero_lx.zero_lx),
    };
  };
  const events = nightEvents(observer, start.ut_days);
  const named = (t: number | null) => (t === null ? null : clock(t));
  const atStart = skyAt(start.ut_days);
  const scene_lx = document.site?.sky?.illuminance_lx;
  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    camera: zero_lx?.camera ?? null,
    latitude_deg: place.latitude_deg,
    longitude_deg: place.longitude_deg,
    start: clock(start.ut_days),
    fromNoon: clock(events.fromNoon),
    toNoon: clock(events.toNoon),
    events: {
      sunset: named(events.sunset),
      civilDusk: named(events.civilDusk),
      nauticalDusk: named(events.nauticalDusk),
      astronomicalDusk: named(events.astronomicalDusk),
      astronomicalDawn: named(events.astronomicalDawn),
      nauticalDawn: named(events.nauticalDawn),
      civilDawn: named(events.civilDawn),
      sunrise: named(events.sunrise),
      moonrise: named(events.moonrise),
      moonset: named(events.moonset),
    },
    lowestSun_deg: events.lowestSun_deg,
    highestSun_deg: events.highestSun_deg,
    moon: moonAt(start.ut_days),
    atStart,
    hours: fullHours(events.sunset ?? events.fromNoon, events.sunrise ?? events.toNoon, start.offset_min).map(
      skyAt,
    ),
    dark:
      zero_lx === null
        ? null
        : darkEnough(observer, events, zero_lx.zero_lx, start.ut_days, clock, request.under_stops),
    sceneSky:
      scene_lx === undefined
        ? null
        : { illuminance_lx: scene_lx, overClear_stops: stopsAbove(scene_lx, atStart.total_lx) },
    uncertainty_stops: CLEAR_SKY_STOPS,
  };
}

function zeroOfCamera(
  document: SceneDocument,
  id: string | undefined,
): { readonly camera: string; readonly zero_lx: number } | null {
  if (id === undefined && (document.cameras ?? []).length === 0) return null;
  const camera = chosenCamera(document, id);
  return { camera: camera.id, zero_lx: zeroOf(exposureOf(camera), calibrationOf(document)).flat_lx };
}

/** Full hours of the clock on set between two instants. */
function fullHours(from: number, to: number, offset_min: number): number[] {
  const ahead = offset_min / 60;
  const first = Math.ceil(from / HOUR_days + ahead);
  const last = Math.floor(to / HOUR_days + ahead);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i - ahead) * HOUR_days);
}

function darkEnough(
  observer: Observer,
  events: { readonly fromNoon: number; readonly toNoon: number },
  zero_lx: number,
  start: number,
  clock: (ut_days: number) => string,
  under_stops = DEFAULT_UNDER_STOPS,
): DarkEnough {
  const limit_lx = zero_lx / 2 ** under_stops;
  const totalAt = (t: number) => skyState(observer, t).total_lx;
  const spans = spansWhere((t) => totalAt(t) < limit_lx, events.fromNoon, events.toNoon, LOOK_EVERY_days);
  const darkest = skyState(observer, darkestBetween(totalAt, events.fromNoon, events.toNoon));
  const parts = [
    ['sun', darkest.sun_lx],
    ['moon', darkest.moon_lx],
    ['stars', darkest.stars_lx],
  ] as const;
  return {
    under_stops,
    limit_lx,
    spans: spans.map(({ from, to }) => ({ from: clock(from), to: clock(to) })),
    atStart: totalAt(start) < limit_lx,
    brightest: parts.reduce((most, part) => (part[1] > most[1] ? part : most))[0],
  };
}

const PROBES = 144;

function darkestBetween(totalAt: (t: number) => number, from: number, to: number): number {
  let darkest = from;
  for (let i = 1; i <= PROBES; i++) {
    const t = from + ((to - from) * i) / PROBES;
    if (totalAt(t) < totalAt(darkest)) darkest = t;
  }
  return darkest;
}
