import { Body, type Observer, SearchAltitude, SearchHourAngle, SearchRiseSet } from 'astronomy-engine';
import { skyState } from './sun-and-moon.ts';

/** Instants of one night in days since J2000; null for what does not happen in it. */
export interface NightEvents {
  /** The night runs from one noon by the sun to the next. */
  readonly fromNoon: number;
  readonly toNoon: number;
  readonly sunset: number | null;
  readonly civilDusk: number | null;
  readonly nauticalDusk: number | null;
  readonly astronomicalDusk: number | null;
  readonly astronomicalDawn: number | null;
  readonly nauticalDawn: number | null;
  readonly civilDawn: number | null;
  readonly sunrise: number | null;
  readonly moonrise: number | null;
  readonly moonset: number | null;
  /** The sun lowest, between the noons. */
  readonly midnight: number;
  readonly lowestSun_deg: number;
  readonly highestSun_deg: number;
}

const RISING = 1;
const SETTING = -1;
/** Upper limb on the horizon, with the refraction and the half diameter that almanacs take. */
const SUNSET_deg = -0.833;
const CIVIL_deg = -6;
const NAUTICAL_deg = -12;
const ASTRONOMICAL_deg = -18;

/** The night that holds an instant, or the one to come when it is day in the morning. */
export function nightEvents(place: Observer, ut_days: number): NightEvents {
  const { altitude_deg } = skyState(place, ut_days).sun;
  const noonBefore = SearchHourAngle(Body.Sun, place, 0, ut_days, -1).time.ut;
  const midnightAfter = SearchHourAngle(Body.Sun, place, 12, noonBefore, 1).time.ut;
  const isMorning = altitude_deg > SUNSET_deg && ut_days > midnightAfter;
  const fromNoon = isMorning ? SearchHourAngle(Body.Sun, place, 0, ut_days, 1).time.ut : noonBefore;
  const midnight = SearchHourAngle(Body.Sun, place, 12, fromNoon, 1).time.ut;
  const toNoon = SearchHourAngle(Body.Sun, place, 0, midnight, 1).time.ut;

  const dusk = (altitude: number) =>
    SearchAltitude(Body.Sun, place, SETTING, fromNoon, midnight - fromNoon, altitude)?.ut ?? null;
  const dawn = (altitude: number) =>
    SearchAltitude(Body.Sun, place, RISING, midnight, toNoon - midnight, altitude)?.ut ?? null;
  const riseOrSet = (body: Body, direction: number, from: number, to: number) =>
    SearchRiseSet(body, place, direction, from, to - from)?.ut ?? null;
  return {
    fromNoon,
    toNoon,
    sunset: riseOrSet(Body.Sun, SETTING, fromNoon, midnight),
    civilDusk: dusk(CIVIL_deg),
    nauticalDusk: dusk(NAUTICAL_deg),
    astronomicalDusk: dusk(ASTRONOMICAL_deg),
    astronomicalDawn: dawn(ASTRONOMICAL_deg),
    nauticalDawn: dawn(NAUTICAL_deg),
    civilDawn: dawn(CIVIL_deg),
    sunrise: riseOrSet(Body.Sun, RISING, midnight, toNoon),
    moonrise: riseOrSet(Body.Moon, RISING, fromNoon, toNoon),
    moonset: riseOrSet(Body.Moon, SETTING, fromNoon, toNoon),
    midnight,
    lowestSun_deg: skyState(place, midnight).sun.altitude_deg,
    highestSun_deg: Math.max(
      skyState(place, fromNoon).sun.altitude_deg,
      skyState(place, toNoon).sun.altitude_deg,
    ),
  };
}
