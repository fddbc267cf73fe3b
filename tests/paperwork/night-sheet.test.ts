import { describe, expect, it } from 'vitest';
import { compassText, nightSheet } from '../../src/paperwork/night-sheet.ts';
import { nightReport } from '../../src/scene/night/night-report.ts';
import { smallScene } from '../support/scenes.ts';

function sheet(latitude_deg: number, longitude_deg: number, start: string, more = {}, request = {}) {
  const site = { place: { latitude_deg, longitude_deg, start }, ...more };
  return nightSheet(nightReport({ ...smallScene(), site }, request));
}

describe('the night’s sheet', () => {
  it('says where, which night and whose clock', () => {
    expect(sheet(53.4, -2.1, '2027-03-04T20:00:00Z').heading).toBe(
      '53.4° N, 2.1° W · night of 2027-03-04 to 2027-03-05 · clock UTC · camera a',
    );
    expect(sheet(-33.9, 151.2, '2027-03-04T20:00:00+11:00').heading).toContain('33.9° S, 151.2° E');
    expect(sheet(-33.9, 151.2, '2027-03-04T20:00:00+11:00').heading).toContain('clock UTC+11:00');
  });

  it('answers when it is dark enough', () => {
    const { findings, twilight } = sheet(53.4, -2.1, '2027-03-04T20:00:00Z');
    expect(findings[0]).toMatch(
      /^Dark enough from 18:2\d to 06:1\d \(clear sky 6 stops or more under camera a/,
    );
    expect(findings[1]).toMatch(/^At the start, 20:00: dark enough, sky 0\.001 lx, −17\.\d stops\.$/);
    expect(twilight).toHaveLength(5);
  });

  it('says so where the night never comes', () => {
    const { findings } = sheet(69.65, 18.96, '2024-06-21T00:00:00Z');
    expect(findings[0]).toBe('The sun does not set: lowest 3.1°.');
    expect(findings.join(' ')).toContain('Never dark enough this night');
    expect(findings.join(' ')).toContain('the sun is too bright');
    expect(sheet(51.5, 0, '2024-06-20T23:00:00Z').findings[0]).toContain(
      'astronomical twilight lasts all night',
    );
    expect(sheet(69.65, 18.96, '2024-12-21T20:00:00Z').findings[0]).toBe(
      'The sun does not rise: at noon it is −3.1°.',
    );
  });

  it('tells from where moonlight comes and where shadows fall', () => {
    const text = sheet(51.5, -0.13, '2023-12-27T00:30:00Z').findings.join(' ');
    expect(text).toMatch(/Moon: full moon, (99|100) % lit; up (at sunset|all night)/);
    expect(text).toMatch(/moonlight comes from S.* \(\d+°\), \d\d° up, 0\.\d+ lx; shadows fall to N/);
    expect(sheet(53.4, -2.1, '2027-03-04T20:00:00Z').findings.join(' ')).toContain(
      'Moon: waning crescent, 12 % lit; down at sunset, rises 05:56.',
    );
  });

  it('doubts a sky that is darker than clear, and explains one that is brighter', () => {
    const start = '2027-03-04T20:00:00Z';
    const text = (illuminance_lx: number) =>
      sheet(53.4, -2.1, start, { sky: { illuminance_lx } }).findings.join(' ');
    expect(text(0.3)).toContain('8.2 stops over a clear sky');
    expect(text(0.0003)).toContain('only heavy cloud or a roof would do that');
    // derived: a tenth is what cloud takes at most
    expect(text(0.00009)).toContain('the start is too early or late for that sky');
    expect(text(0.0012)).toContain('which agrees with a clear sky');
    expect(text(0)).toContain('a clear sky at its start gives 0.001 lx');
  });

  it('names the points of the compass', () => {
    expect([0, 22, 158, 180, 349, 359, 540].map(compassText)).toEqual([
      'N',
      'NNE',
      'SSE',
      'S',
      'N',
      'N',
      'S',
    ]);
  });
});
