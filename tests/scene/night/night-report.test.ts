import { describe, expect, it } from 'vitest';
import { parseInstant } from '../../../src/scene/night/instant.ts';
import { type NightRequest, nightReport } from '../../../src/scene/night/night-report.ts';
import { moonAt } from '../../../src/scene/night/sun-and-moon.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { smallScene } from '../../support/scenes.ts';

function night(
  latitude_deg: number,
  longitude_deg: number,
  start: string,
  more: Partial<SceneDocument['site'] & object> = {},
  request: NightRequest = {},
) {
  const site = { place: { latitude_deg, longitude_deg, start }, ...more };
  return nightReport({ ...smallScene(), site }, request);
}

function minutesApart(got: string | null, wanted: string): number {
  expect(got).not.toBeNull();
  return Math.abs(parseInstant(got!).ut_days - parseInstant(wanted).ut_days) * 1440;
}

const LONDON = [51.5, -0.13] as const;

describe('sun', () => {
  it.each([
    // published: almanac times for London, from memory, to the minute
    ['2024-12-21T20:00:00Z', '2024-12-21T15:53:00Z', '2024-12-22T08:04:00Z'],
    ['2024-06-20T22:00:00+01:00', '2024-06-20T21:21:00+01:00', '2024-06-21T04:43:00+01:00'],
  ])('sets and rises in London as almanacs say, night of %s', (start, sunset, sunrise) => {
    const { events } = night(...LONDON, start);
    expect(minutesApart(events.sunset, sunset)).toBeLessThanOrEqual(2);
    expect(minutesApart(events.sunrise, sunrise)).toBeLessThanOrEqual(2);
  });

  it('sets in New York at the equinox as almanacs say', () => {
    // published: 2024-03-20, sunset 19:09 by summer time; from memory
    const { events } = night(40.71, -74.01, '2024-03-20T20:00:00-04:00');
    expect(minutesApart(events.sunset, '2024-03-20T19:09:00-04:00')).toBeLessThanOrEqual(2);
  });

  it('sinks straight down on the equator at an equinox', () => {
    // derived: 15° an hour: from −0.833° to −6°, −12°, −18° in 20.7, 44.7, 68.7 minutes
    const { events } = night(0, 0, '2024-03-20T20:00:00Z');
    const sinking = (event: string | null) =>
      (parseInstant(event!).ut_days - parseInstant(events.sunset!).ut_days) * 1440;
    expect(Math.abs(sinking(events.civilDusk) - 20.7)).toBeLessThan(1.1);
    expect(Math.abs(sinking(events.nauticalDusk) - 44.7)).toBeLessThan(1.1);
    expect(Math.abs(sinking(events.astronomicalDusk) - 68.7)).toBeLessThan(1.1);
  });

  it('orders the night, and turns at the clock of the start', () => {
    const { events, fromNoon, toNoon } = night(53.4, -2.1, '2027-03-05T02:00:00Z');
    const { sunset, civilDusk, nauticalDusk, astronomicalDusk } = events;
    const { astronomicalDawn, nauticalDawn, civilDawn, sunrise } = events;
    const dusk = [sunset, civilDusk, nauticalDusk, astronomicalDusk];
    const order = [fromNoon, ...dusk, astronomicalDawn, nauticalDawn, civilDawn, sunrise, toNoon];
    expect(order).toEqual([...order].sort());
    // after midnight it is still the night that began the day before
    expect(sunset!.slice(0, 10)).toBe('2027-03-04');
    // in the morning it is the night to come
    expect(night(53.4, -2.1, '2027-03-05T09:00:00Z').events.sunset!.slice(0, 10)).toBe('2027-03-05');
    // another clock, the same instants
    const other = night(53.4, -2.1, '2027-03-05T07:30:00+05:30').events;
    expect(other.sunset!.slice(16)).toBe('+05:30');
    expect(minutesApart(other.sunset, events.sunset!.replace('+00:00', 'Z'))).toBeLessThan(1);
  });

  it('does not set or does not rise near the poles', () => {
    // derived: at 69.65° N the midsummer sun goes down to 69.65 − 66.56 = 3.1°, the midwinter one up to −3.1°
    const summer = night(69.65, 18.96, '2024-06-21T00:00:00Z');
    expect(summer.events.sunset).toBeNull();
    expect(Math.abs(summer.lowestSun_deg - 3.09)).toBeLessThan(0.1);
    expect(summer.dark!.spans).toEqual([]);
    expect(summer.dark!.brightest).toBe('sun');
    const winter = night(69.65, 18.96, '2024-12-21T20:00:00Z');
    expect(winter.events.sunrise).toBeNull();
    expect(Math.abs(winter.highestSun_deg + 3.09)).toBeLessThan(0.1);
    expect(winter.events.civilDusk).not.toBeNull();
  });

  it('knows nights that are never quite dark, and the poles themselves', () => {
    // derived: London at midsummer: −(90 − 51.5 − 23.44) = −15.06°
    const { events, lowestSun_deg } = night(...LONDON, '2024-06-20T23:00:00Z');
    expect(Math.abs(lowestSun_deg + 15.06)).toBeLessThan(0.1);
    expect(events.nauticalDusk).not.toBeNull();
    expect(events.astronomicalDusk).toBeNull();
    for (const latitude of [90, -90]) {
      const { events: none, hours } = night(latitude, 0, '2024-06-21T00:00:00Z');
      expect(none.sunset).toBeNull();
      expect(hours.length).toBeGreaterThan(20);
    }
  });
});

describe('moon', () => {
  it.each([
    // published: instants of full and new moon and first quarter, from memory of almanacs
    ['2024-01-25T17:54:00Z', 180, 'full moon'],
    ['2023-08-31T01:35:00Z', 180, 'full moon'],
    ['2024-01-11T11:57:00Z', 0, 'new moon'],
    ['2024-04-08T18:21:00Z', 0, 'new moon'],
    ['2024-01-18T03:53:00Z', 90, 'first quarter'],
  ])('is at its phase at %s', (instant, phase_deg, name) => {
    const { phase_deg: got, phase, lit } = moonAt(parseInstant(instant).ut_days);
    const off = Math.abs(((got - phase_deg + 540) % 360) - 180);
    // derived: 12.2° a day are 0.017° in two minutes
    expect(off).toBeLessThan(0.02);
    expect(phase).toBe(name);
    expect(Math.abs(lit - (1 - Math.cos((phase_deg * Math.PI) / 180)) / 2)).toBeLessThan(0.01);
  });

  it('has a name for every stretch between', () => {
    const names = [4, 10, 17, 25].map(
      (day) => moonAt(parseInstant(`2024-01-${day < 10 ? '0' : ''}${day}T12:00:00Z`).ut_days).phase,
    );
    // published: last quarter 4 January, new 11, first quarter 18, full 25 January 2024; from memory
    expect(names).toEqual(['last quarter', 'waning crescent', 'waxing crescent', 'full moon']);
  });

  it('lights the ground when it is full and high, from where it stands', () => {
    // derived: a full moon at midwinter midnight stands high in the south; published: 0.05 to 0.3 lx (handbook tables)
    const { atStart } = night(...LONDON, '2023-12-27T00:30:00Z');
    expect(atStart.moon.altitude_deg).toBeGreaterThan(55);
    expect(Math.abs(atStart.moon.azimuth_deg - 180)).toBeLessThan(25);
    expect(atStart.moon_lx).toBeGreaterThan(0.1);
    expect(atStart.moon_lx).toBeLessThan(0.32);
    expect(atStart.sun_lx).toBe(0);
  });
});

describe('darkness', () => {
  it('is reached when the sky is six stops under the camera', () => {
    // derived: zero 250·16/(0.02·800) = 250 lx; 2^−6 of it 3.9 lx: a little before the sun is 6° under (3.4 lx)
    const { dark, events } = night(53.4, -2.1, '2027-03-04T20:00:00Z');
    expect(dark!.limit_lx).toBeCloseTo(250 / 64, 9);
    expect(dark!.spans).toHaveLength(1);
    expect(dark!.atStart).toBe(true);
    const [span] = dark!.spans;
    expect(span!.from <= events.civilDusk!).toBe(true);
    expect(minutesApart(span!.from, events.civilDusk!.replace('+00:00', 'Z'))).toBeLessThan(3);
    expect(minutesApart(span!.to, events.civilDawn!.replace('+00:00', 'Z'))).toBeLessThan(3);
  });

  it('waits for the moon to set where the camera sees by moonlight', () => {
    // derived: 17 stops under 250 lx is 0.0019 lx: dark only while the moon is down, or so low that a half moon gives less than
    // 0.0009 lx (under 4°, half an hour before it sets), and the sun far under
    const { dark, events } = night(...LONDON, '2024-01-18T22:00:00Z', {}, { under_stops: 17 });
    expect(dark!.spans).toHaveLength(1);
    expect(minutesApart(dark!.spans[0]!.from, events.moonset!.replace('+00:00', 'Z'))).toBeLessThan(30);
    expect(dark!.atStart).toBe(false);
  });

  it('is not spoken of without a camera', () => {
    const site = { place: { latitude_deg: 50, longitude_deg: 0, start: '2027-03-04T20:00:00Z' } };
    const report = nightReport({ keyfall: 1, title: 'Bare', site });
    expect(report.dark).toBeNull();
    expect(report.camera).toBeNull();
    expect(report.atStart.stops).toBeNull();
  });

  it('compares the scene’s own sky', () => {
    const { sceneSky, atStart } = night(53.4, -2.1, '2027-03-04T20:00:00Z', { sky: { illuminance_lx: 0.3 } });
    expect(sceneSky!.overClear_stops).toBeCloseTo(Math.log2(0.3 / atStart.total_lx), 12);
    expect(night(53.4, -2.1, '2027-03-04T20:00:00Z').sceneSky).toBeNull();
  });

  it('has rows at full hours of the clock', () => {
    const { hours } = night(53.4, -2.1, '2027-03-04T20:00:00+05:45');
    expect(hours.length).toBeGreaterThan(11);
    for (const { at } of hours) expect(at.slice(14)).toBe('00+05:45');
  });

  it('needs a place', () => {
    expect(() => nightReport(smallScene())).toThrow('site.place: found no place; expected latitude_deg');
  });
});
