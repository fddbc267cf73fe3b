import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
const QUAY = `${SCENES}night-quay.json`;

describe('keyfall night', () => {
  it('prints twilight, the hours and when it is dark enough', async () => {
    const { code, out, err } = await keyfall('night', QUAY);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toContain('Sunset, sunrise');
    expect(out).toContain('Dark enough from 18:');
    expect(out).toMatch(/^20:00 +−20° +down/m);
  });

  it('answers no where it never gets dark enough', async () => {
    const place = { latitude_deg: 69.65, longitude_deg: 18.96, start: '2024-06-21T00:00:00Z' };
    const arctic = file('arctic.json', JSON.stringify({ ...smallScene(), site: { place } }));
    expect((await keyfall('night', arctic)).code).toBe(1);
    expect((await keyfall('night', QUAY, '--under', '25')).code).toBe(1);
  });

  it('prints one JSON object with --json', async () => {
    const report = JSON.parse((await keyfall('night', QUAY, '--json')).out);
    expect(Object.keys(report)).toEqual([
      ...[
        'keyfall',
        'title',
        'setup',
        'camera',
        'latitude_deg',
        'longitude_deg',
        'start',
        'fromNoon',
        'toNoon',
      ],
      ...['events', 'lowestSun_deg', 'highestSun_deg', 'moon', 'atStart', 'hours', 'dark', 'sceneSky'],
      'uncertainty_stops',
    ]);
    expect(report.start).toBe('2027-03-04T20:00+00:00');
    expect(report.dark.atStart).toBe(true);
  });

  it('refuses nonsense', async () => {
    const nowhere = file('nowhere.json', JSON.stringify(smallScene()));
    for (const [args, words] of [
      [[nowhere], 'site.place: found no place'],
      [[QUAY, '--camera', 'z'], 'no camera "z"'],
      [[QUAY, '--under', 'dark'], '--under dark'],
    ] as const) {
      const { code, out, err } = await keyfall('night', ...args);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).toContain(words);
    }
  });
});
