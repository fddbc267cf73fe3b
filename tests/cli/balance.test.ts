import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited, opened, smallScene } from '../support/scenes.ts';

const { file, path } = temporaryFolder();
/** 125 lx at the mark, 2000 cd at 3.99 m: −0.99 stop of the flat receptor's 250 lx. */
const small = (changes: Record<string, unknown> = {}) => JSON.stringify(edited(smallScene(), changes));

describe('keyfall balance', () => {
  it('prints levels, what is wanted now and then, and every mark', async () => {
    const { code, out, err } = await keyfall('balance', file('small.json', small()), '--want', 'face:key=-2');
    expect([code, err]).toEqual([0, '']);
    // derived: 2000/3.99² = 125.6 lx is log₂(125.6/250) = −0.99; a stop and a bit down is 50 %.
    expect(out).toMatch(/^face +key +−2\.0 +−1\.0 +−2\.0 +– +±0\.7$/m);
    expect(out).toMatch(/^key +100 % +50 % +−1\.0 stop$/m);
    expect(out).toMatch(/^face +−1\.0 +−2\.0$/m);
    expect(out).toContain('Base · camera a · f/4 · 1/50 s · ISO 800');
    expect(out).toContain("Stops are over the camera's zero");
  });

  it('as JSON is one object on one line', async () => {
    const { code, out } = await keyfall('balance', file('j.json', small()), '--want', 'face=-2', '--json');
    expect(code).toBe(0);
    expect(out.trimEnd()).not.toContain('\n');
    expect(JSON.parse(out)).toMatchObject({
      keyfall: 1,
      setup: null,
      camera: 'a',
      reached: true,
      wants: [{ mark: 'face', lamp: null, wanted_stops: -2, reached: true, why: null, remedies: [] }],
      lamps: [{ id: 'key', level_now: 1 }],
      marks: [{ id: 'face' }],
    });
  });

  it('answers no where levels cannot, and says what can', async () => {
    const lamp = { 'lamps.0.filters': ['half-cto'], 'lamps.0.name': 'Key' };
    const { code, out } = await keyfall('balance', file('dim.json', small(lamp)), '--want', 'face:key=-1');
    expect(code).toBe(1);
    expect(out).toContain('face, Key: 0.5 stop short at full level. Any one of these does it:');
    expect(out).toMatch(/Key nearer along its axis: 3\.\d\d m \(\d+ ft [\d.]+ in\) from the mark/);
    expect(out).toMatch(/Key without Half orange, then 3200 K → −1\.0/);
    expect(out).toContain('2 such heads side by side');
  });

  it('says cannot where nothing does', async () => {
    const { code, out } = await keyfall('balance', file('far.json', small()), '--want', 'face:key=12');
    expect(code).toBe(1);
    expect(out).toContain('Cannot be had with this lamp by level, place, height or filter alone.');
  });

  it.each([
    [['--want', 'fase:key=0'], '--want: found no mark "fase"; expected one of face; did you mean "face"?'],
    [['--want', 'face:kez=0'], 'did you mean "key"?'],
    [['--want', 'face'], 'expected mark:lamp=stops'],
    [['--want', 'face=0', '--white-balance'], 'two questions: ask one at a time'],
    [[], 'say what is wanted: --want'],
    [['--white-balance', '--write', 'x.json'], '--write goes with --want'],
    [['--want', 'face=0', '--overwrite'], '--overwrite goes with --write FILE'],
    [['--want', 'face=0', '--camera', 'b'], 'found no camera "b"; expected one of a'],
    [['--want', 'face=0', '--setup', 'x'], 'found no setup "x"; expected none'],
  ])('refuses %s', async (args, message) => {
    const { code, out, err } = await keyfall('balance', file('bad.json', small()), ...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(message);
  });

  it('says that stops need a camera', async () => {
    const { code, err } = await keyfall(
      'balance',
      file('nc.json', small({ cameras: [] })),
      '--want',
      'face=0',
    );
    expect(code).toBe(2);
    expect(err).toContain('found no camera; expected a camera');
  });
});

describe('keyfall balance --write', () => {
  it('saves a scene that then meters as promised, in the canonical form', async () => {
    const written = path('written.json');
    const first = await keyfall('balance', file('w.json', small()), '--want', 'face=-2', '--write', written);
    expect(first.code).toBe(0);
    expect(first.err).toContain('written.json: written with the new levels');
    const document = opened(JSON.parse(readFileSync(written, 'utf8')));
    expect({ ...document, lamps: [] }).toEqual({ ...smallScene(), lamps: [] });
    const { out } = await keyfall('meter', written, '--direct', '--json');
    expect((JSON.parse(out) as { marks: { stops: number }[] }).marks[0]!.stops).toBeCloseTo(-2, 2);
  });

  it('never writes over a file unasked', async () => {
    const scene = file('kept.json', small());
    const before = readFileSync(scene, 'utf8');
    const refused = await keyfall('balance', scene, '--want', 'face=-2', '--write', scene);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('there already; add --overwrite to replace it');
    expect(readFileSync(scene, 'utf8')).toBe(before);
    const asked = await keyfall('balance', scene, '--want', 'face=-2', '--write', scene, '--overwrite');
    expect(asked.code).toBe(0);
    const saved = JSON.parse(readFileSync(scene, 'utf8')) as { lamps: { level: number }[] };
    // derived: 250·2⁻² = 62.5 lx of 125.6.
    expect(saved.lamps[0]!.level).toBeCloseTo(0.4975, 3);
  });

  it('says when the folder is not there', async () => {
    const nowhere = path('nowhere/x.json');
    const { code, err } = await keyfall(
      'balance',
      file('n.json', small()),
      '--want',
      'face=0',
      '--write',
      nowhere,
    );
    expect(code).toBe(2);
    expect(err).toContain('no such folder');
  });

  it('in a setup writes its changes and leaves the base', async () => {
    const scene = file('s.json', small({ setups: [{ id: 'dim', changes: { key: { level: 0.9 } } }] }));
    const written = path('setup.json');
    const args = ['--want', 'face=-2', '--setup', 'dim', '--write', written];
    expect((await keyfall('balance', scene, ...args)).code).toBe(0);
    const saved = JSON.parse(readFileSync(written, 'utf8')) as Record<string, unknown>;
    expect(saved.lamps).toEqual(smallScene().lamps);
    expect(saved.setups).toEqual([{ id: 'dim', changes: { key: { level: expect.closeTo(0.4975, 3) } } }]);
  });

  it('warns where the scene leaves its files behind', async () => {
    const text = readFileSync(`${SCENES}../tests/fixtures/photometry/synthetic/lambert-C-h0.ies`, 'latin1');
    writeFileSync(path('lamp.ies'), text, 'latin1');
    const scene = file('ies.json', small({ 'heads.plain.photometry': { kind: 'file', file: 'lamp.ies' } }));
    mkdirSync(path('elsewhere'));
    const { err } = await keyfall(
      'balance',
      scene,
      '--want',
      'face=-12',
      '--write',
      path('elsewhere/scene.json'),
      '--overwrite',
    );
    expect(err).toContain('the scene names files that stand beside it');
  });
});

describe('keyfall balance --white-balance', () => {
  it('prints every lamp from the camera and from the even split of the demo', async () => {
    const { code, out } = await keyfall('balance', `${SCENES}night-quay.json`, '--white-balance');
    expect(code).toBe(0);
    expect(out).toMatch(
      /^Even split: \d{4} K\. Cool \(.*Backlight.*\) −\d+, warm \(.*Key, second boat.*\) \+\d+\.$/m,
    );
    expect(out).toMatch(/^Lamp +colour +filters +from 4300 K +from even$/m);
  });

  it('answers no for one lamp', async () => {
    const { code, out } = await keyfall('balance', file('one.json', small()), '--white-balance');
    expect(code).toBe(1);
    expect(out).toContain('one lamp is on. It takes two.');
    const { out: json } = await keyfall('balance', path('one.json'), '--white-balance', '--json');
    expect(JSON.parse(json)).toMatchObject({ keyfall: 1, camera: 'a', split: null, lamps: [{ id: 'key' }] });
  });
});
