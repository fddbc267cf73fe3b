import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { headOf } from '../support/powered-scenes.ts';
import { smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
const QUAY = `${SCENES}night-quay.json`;

function sceneFile(name: string, stand: object, more: object = {}): string {
  const heads = { soft: headOf(undefined, { windArea_m2: 0.64, mass_kg: 6 }) };
  const lamps = [{ id: 'soft', head: 'soft', position_m: [0, 3, 4], aim_m: [0, 1, 0], stand }];
  return file(name, JSON.stringify({ ...smallScene(), heads, lamps, ...more }));
}

const STAND = { maxHeight_m: 3.5, footRadius_m: 0.5 };

describe('keyfall rigging', () => {
  it('answers no where a stand would tip or does not reach, yes where nothing fails', async () => {
    const tips = sceneFile('tips.json', STAND, { site: { wind: { speed_m_s: 10 } } });
    expect(await keyfall('rigging', tips)).toMatchObject({ code: 1, err: '' });
    expect((await keyfall('rigging', tips, '--wind', '2')).code).toBe(0);
    expect((await keyfall('rigging', sceneFile('high.json', { maxHeight_m: 2 }))).code).toBe(1);
    expect((await keyfall('rigging', sceneFile('calm.json', STAND))).code).toBe(0);
  });

  it('prints its caution with every answer', async () => {
    for (const args of [[QUAY], [QUAY, '--wind', '12'], [`${SCENES}lamp-and-card.json`]]) {
      const { out } = await keyfall('rigging', ...args);
      expect(out).toContain('screening only');
      expect(out).toContain('Planning aid only.');
      expect(out).toContain('without any safety factor');
    }
  });

  it('gives one object with --json', async () => {
    const { out } = await keyfall('rigging', sceneFile('json.json', STAND), '--wind', '10', '--json');
    expect(out.trimEnd()).not.toContain('\n');
    const report = JSON.parse(out);
    expect(report.wind).toEqual({ speed_m_s: 10, from: 'request' });
    // derived: ½·1.2·100·1.2·0.64 N × 3 m
    expect(report.stands[0].moment_Nm).toBeCloseTo(138.24, 10);
    expect(report.cautions[0]).toMatch(/^Planning aid only/);
    expect(report.warnings[0]).toMatch(/^soft: begins to tip/);
  });

  it.each<[string[], RegExp]>([
    [['--wind', 'storm'], /--wind storm: give a number from 0 to 60/],
    [['--wind', '61'], /--wind 61: give a number from 0 to 60/],
    [['--setup', '9'], /found no setup "9"/],
    [['--camera', 'z'], /found no camera "z"/],
  ])('refuses %j', async (options, message) => {
    const { code, out, err } = await keyfall('rigging', QUAY, ...options);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });

  it('has nothing to say of no lamps', async () => {
    const empty = file('empty.json', JSON.stringify({ keyfall: 1, title: '' }));
    expect((await keyfall('rigging', empty)).err).toBe(
      'lamps: found no lamps; expected at least one, or there is nothing on a stand\n',
    );
  });
});

describe('the wind of a scene', () => {
  it.each<[object, RegExp]>([
    [
      { speed_m_s: 10, gust_m_s: 5 },
      /gust_m_s: found 5; expected gusts at least as strong as the steady wind/,
    ],
    [{ speed_m_s: 100 }, /speed_m_s: found 100; expected at most 60/],
    [{ gust_m_s: 5 }, /speed_m_s: found nothing; expected/],
  ])('%j is refused', async (wind, message) => {
    const { code, err } = await keyfall('rigging', sceneFile('wind.json', STAND, { site: { wind } }));
    expect(code).toBe(2);
    expect(err).toMatch(message);
  });
});
