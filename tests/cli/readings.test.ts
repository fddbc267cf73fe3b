import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited, smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
/** The mark reads 2000/3.99² = 125.6 lx by the plan, less a trace for the face. */
const small = (changes: Record<string, unknown> = {}) => JSON.stringify(edited(smallScene(), changes));
const reading = (illuminance_lx: number, more: object = {}) => ({
  id: 'r1',
  mark: 'face',
  lamps: ['key'],
  illuminance_lx,
  ...more,
});

describe('keyfall readings', () => {
  it('prints measured against planned, the correction and what is left', async () => {
    const { code, out, err } = await keyfall(
      'readings',
      file('two.json', small({ readings: [reading(250, { name: 'First' })] })),
    );
    expect([code, err]).toEqual([0, '']);
    // derived: log₂(250/125.6) = +0.99; with plan ±⅔ and reading ±0.1 the lamp takes 100/102.25 of it: +0.97.
    expect(out).toMatch(/^First +face \(flat\) +key +250 +126 +\+0\.99 +24\d +\+0\.02$/m);
    expect(out).toMatch(/^key +\+0\.97 stop +±0\.7 +±0\.1 +\+0\.99 stop$/m);
    expect(out).toContain('1 reading · off by 0.99 stop on the plan, 0.02 after correction');
    expect(out).not.toContain('apart');
  });

  it('says in haze that one distance cannot tell lamp from haze', async () => {
    const hazy = small({ haze: { visibility_m: 60 }, readings: [reading(90)] });
    const { code, out } = await keyfall('readings', file('hazy.json', hazy));
    expect(code).toBe(0);
    expect(out).toContain('These readings cannot tell key and haze apart');
    expect(out).toContain('Meter key alone at a second distance');
    expect(out).toMatch(/^Haze +visibility 60 m → [\d.]+ m +±1\.0 +±\d\.\d +cannot tell$/m);
  });

  it('answers no, and says why, where a reading fits nothing', async () => {
    const readings = [reading(125), reading(500, { id: 'r2' })];
    const { code, out } = await keyfall('readings', file('slip.json', small({ readings })));
    expect(code).toBe(1);
    expect(out).toContain('r2: still +1.0');
    expect(out).toContain('stop off, more than a third. Meter again; check which lamps were alight');
  });

  it('leaves out what tells nothing', async () => {
    const { out } = await keyfall('readings', file('zero.json', small({ readings: [reading(0)] })));
    expect(out).toContain('No reading that can be used');
    expect(out).toContain('r1: left out, 0 lx tells nothing');
  });

  it('says of which lamp it counts the earlier state, and of which it need not', async () => {
    const taken = [{ lamp: 'key', position_m: [0, 1, 4], level: 0.5, filters: [] }];
    const readings = [reading(62), reading(63, { id: 'r2' })].map((r) => ({ ...r, taken }));
    const moved = small({ readings, 'lamps.0.position_m': [0, 1, 3], 'lamps.0.name': 'Key' });
    const { code, out } = await keyfall('readings', file('moved.json', moved));
    // derived: half of 125.6 lx, 62.8: nothing to correct.
    expect(code).toBe(0);
    expect(out).toMatch(/^r1 .* 62 +62\.\d +−0\.0\d /m);
    expect(out).toContain('r1, r2: taken with Key at its earlier place and level.\n');
    const back = await keyfall('readings', file('back.json', small({ readings, 'lamps.0.level': 0.5 })));
    expect(back.out).not.toContain('taken with');
  });

  it('without readings says which to take first', async () => {
    const { code, out } = await keyfall('readings', file('none.json', small()));
    expect(code).toBe(0);
    expect(out).toContain('No readings yet');
    expect(out).toMatch(
      /The reading that would tell most: key alone, .*± of the marks from 0\.67 to 0\.10 stop/,
    );
  });

  it('as JSON is one object', async () => {
    const { out } = await keyfall(
      'readings',
      file('json.json', small({ readings: [reading(200)] })),
      '--json',
    );
    expect(out.trimEnd()).not.toContain('\n');
    expect(JSON.parse(out)).toMatchObject({
      keyfall: 1,
      readings: [
        { id: 'r1', mark: 'face', receptor: 'flat', lamps: ['key'], measured_lx: 200, outlier: false },
      ],
      lamps: [{ id: 'key', metered: true }],
      haze: null,
      together: [],
      unused: [],
    });
  });

  it('refuses a scene without marks', async () => {
    const { code, err } = await keyfall('readings', file('bare.json', '{"keyfall":1,"title":"Bare"}'));
    expect(code).toBe(2);
    expect(err).toContain('marks: found no marks; expected places where the meter is held');
  });
});

describe('keyfall meter with readings', () => {
  const scene = () => file('meter.json', small({ readings: [reading(250)] }));

  it('meters as the readings say, and says so', async () => {
    const { out } = await keyfall('meter', scene(), '--direct');
    expect(out).toMatch(/^face +flat → 0, 0, 1 +24\d +0 /m);
    expect(out).toContain('Corrected by 1 reading of the night');
    const report = JSON.parse((await keyfall('meter', scene(), '--direct', '--json')).out) as {
      corrected: unknown;
      marks: { uncertainty: { input_stops: number } }[];
    };
    expect(report.corrected).toEqual({ readings: 1 });
    // derived: 1/√(1/(⅔)² + 1/0.1²) = 0.0989 instead of ⅔.
    expect(report.marks[0]!.uncertainty.input_stops).toBeCloseTo(0.0989, 4);
  });

  it('--uncorrected, and without readings, is the plan to the last bit', async () => {
    const plain = await keyfall('meter', file('plain.json', small()), '--json');
    expect((await keyfall('meter', scene(), '--uncorrected', '--json')).out).toBe(plain.out);
    expect(plain.out).not.toContain('corrected');
  });

  it('leaves the demo as it was, but for its reading', async () => {
    const { out } = await keyfall('meter', `${SCENES}night-quay.json`, '--direct', '--uncorrected');
    expect(out).not.toContain('Corrected');
  });
});
