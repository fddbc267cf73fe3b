import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited, fullScene, smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
const write = (name: string, scene: unknown) => file(name, JSON.stringify(scene, null, 1));

async function json(path: string) {
  const { code, out, err } = await keyfall('check', path, '--json');
  expect(err).toBe('');
  return { code, report: JSON.parse(out) as { valid: boolean; problems: Record<string, unknown>[] } };
}

describe('keyfall check', () => {
  it.each(readdirSync(SCENES).filter((name) => name.endsWith('.json')))(
    'finds nothing wrong with %s',
    async (name) => {
      expect(await keyfall('check', `${SCENES}${name}`)).toEqual({
        code: 0,
        out: `${SCENES}${name}: valid\n`,
        err: '',
      });
      expect(await json(`${SCENES}${name}`)).toEqual({
        code: 0,
        report: { keyfall: 1, valid: true, problems: [] },
      });
    },
  );

  it('lists every problem with its line and counts them', async () => {
    const path = write(
      'bad.json',
      edited(smallScene(), { 'lamps.0.level': 2, 'marks.0.facing': 'lamp:kex', titel: 'x' }),
    );
    const { code, out, err } = await keyfall('check', path);
    expect([code, err]).toEqual([2, '']);
    const lines = out.trimEnd().split('\n');
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(
      /^error: .*bad\.json:\d+: lamps\[0\]\.level \(key\): found 2; expected at most 1/,
    );
    expect(lines.at(-1)).toBe(`${path}: 3 errors, 0 warnings`);
  });

  it('gives the same as JSON, with path, thing, line, words and nearest', async () => {
    const path = write('bad-head.json', edited(smallScene(), { 'lamps.0.head': 'plian' }));
    const { code, report } = await json(path);
    expect(code).toBe(2);
    expect(report.valid).toBe(false);
    expect(report.problems).toEqual([
      {
        severity: 'error',
        path: 'lamps[0].head',
        thing: 'key',
        line: expect.any(Number),
        found: '"plian"',
        expected: 'the name of a head',
        nearest: 'plain',
      },
    ]);
  });

  it('warns without refusing', async () => {
    const path = write('warned.json', edited(smallScene(), { 'lamps.0.stand': { maxHeight_m: 0.5 } }));
    const { code, out } = await keyfall('check', path);
    expect(code).toBe(0);
    expect(out).toMatch(/^warning: .*lamps\[0\]\.position_m \(key\): found 1 m, above its stand's 0\.5 m/);
    expect(out).toMatch(/: valid, 1 warning\n$/);
  });

  it('misses the files that a scene names', async () => {
    const { code, out } = await keyfall('check', write('full.json', fullScene()));
    expect(code).toBe(2);
    expect(out).toContain(
      'solids[7].file (hut): found "hut.glb": no such file; expected a file that stands beside the scene',
    );
  });

  it('looks into every setup too, and says which', async () => {
    const scene = edited(smallScene(), {
      setups: [
        {
          id: 'filed',
          changes: {
            plain: {
              photometry: { kind: 'file', file: 'gone.ies', peak_cd: null, beam_deg: null, field_deg: null },
            },
          },
        },
        { id: 'high', changes: { key: { stand: { maxHeight_m: 0.5 } } } },
        { id: 'fine', changes: { key: { level: 0.5 } } },
      ],
    });
    const { code, out } = await keyfall('check', write('setups.json', scene));
    expect(code).toBe(2);
    expect(out).toContain(
      'heads.plain.photometry.file: found "gone.ies": no such file, in setup "filed"; expected',
    );
    expect(out).toContain('found 1 m, above its stand\'s 0.5 m, in setup "high"; expected');
    expect(out).toMatch(/: 1 error, 1 warning\n$/);
  });

  it('says as JSON too what only comes to light when a lamp is put together', async () => {
    const dark = { kind: 'table', wavelength_nm: [200, 300], value: [1, 1] };
    const path = write('dark.json', edited(smallScene(), { 'heads.plain.spectrum': dark }));
    const { code, report } = await json(path);
    expect(code).toBe(2);
    expect(report.problems).toHaveLength(1);
    expect(report.problems[0]).toMatchObject({
      path: 'heads.plain',
      found: expect.stringContaining('no visible light'),
    });
  });
});
