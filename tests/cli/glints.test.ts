import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BAD_INPUT, DONE, NO } from '../../src/cli/exit.ts';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited, smallScene } from '../support/scenes.ts';

const folder = temporaryFolder();
const DEMO = join(SCENES, 'night-quay.json');

/** A glossy board that mirrors the key into the camera. */
const SHINY = {
  materials: { gloss: { reflectance: 0.1, roughness: 0.02, coatIor: 1.5 } },
  'solids.0.material': 'gloss',
  'solids.0.size_m': [2, 2],
  'lamps.0.position_m': [-2, 1, 4],
  'cameras.0.position_m': [2, 1, 4],
};

function scene(name: string, changes: Record<string, unknown> = {}): string {
  return folder.file(name, JSON.stringify(edited(smallScene(), { ...SHINY, ...changes })));
}

describe('keyfall glints', () => {
  it('prints one object with the fields that are promised, and answers no where one burns', async () => {
    const { code, out, err } = await keyfall('glints', scene('shiny.json'), '--json');
    expect(err).toBe('');
    expect(code).toBe(NO);
    const { glints, camera } = JSON.parse(out);
    expect(camera).toBe('a');
    expect(glints).toHaveLength(1);
    const [glint] = glints;
    expect(glint).toMatchObject({ lamp: 'key', solid: 'card', inFrame: true });
    for (const field of ['incidence_deg', 'reflectance', 'luminance_cd_m2', 'stops', 'polarised_stops'])
      expect(glint[field], field).toBeTypeOf('number');
    expect(glint.point_m).toHaveLength(3);
    // derived: by symmetry in the middle
    expect(glint.pixel[0]).toBeCloseTo(0.5, 6);
    expect(glint.cures.length).toBeGreaterThan(0);
    for (const { change, by_m, cost_stops } of glint.cures) {
      expect(change).toMatch(/^(lamp|camera)-/);
      expect(by_m).toBeGreaterThan(0);
      expect(cost_stops === null || Number.isFinite(cost_stops)).toBe(true);
    }
  });

  it('says the same in sentences', async () => {
    const { code, out } = await keyfall('glints', scene('text.json'));
    expect(code).toBe(NO);
    expect(out).toContain('key mirrors white in this frame.');
    expect(out).toMatch(
      /• key mirrors in card, front, 1\.00 m from its left edge, 1\.00 m up, in frame at 50 % across/,
    );
    expect(out).toMatch(/\n {4}Clear if: /);
    expect((await keyfall('glints', scene('text.json'), '--no-cures')).out).not.toContain('Clear if');
  });

  it('is content where nothing burns in frame', async () => {
    const { code, out } = await keyfall('glints', scene('away.json', { 'cameras.0.look_m': [8, 1, 4] }));
    expect(code).toBe(DONE);
    expect(out).toContain('No lamp mirrors white in this frame.');
    const matt = await keyfall('glints', scene('matt.json', { 'solids.0.material': 'grey-card' }), '--json');
    expect(matt.code).toBe(DONE);
    expect(JSON.parse(matt.out).glints).toEqual([]);
  });

  it('answers for a setup and for a camera', async () => {
    const one = await keyfall('glints', DEMO, '--setup', '1a', '--camera', 'b', '--json', '--no-cures');
    const report = JSON.parse(one.out);
    expect(report).toMatchObject({ setup: '1a', camera: 'b' });
    // The setup has the backlight alone.
    expect(new Set(report.glints.map((g: { lamp: string }) => g.lamp))).toEqual(new Set(['back']));
  });

  it.each([
    ['no camera', { cameras: [] }, /no camera/],
    ['no lamps', { lamps: [] }, /no lamps/],
    ['no lit lamp', { 'lamps.0.level': 0 }, /no lamp that is lit/],
  ])('refuses a scene with %s', async (_, changes, message) => {
    const { code, out, err } = await keyfall('glints', scene('bad.json', changes));
    expect(code).toBe(BAD_INPUT);
    expect(out).toBe('');
    expect(err).toMatch(message);
  });

  it('refuses unknown ids and options, naming the nearest', async () => {
    expect(await keyfall('glints', DEMO, '--camera', 'z')).toMatchObject({ code: BAD_INPUT, out: '' });
    const setup = await keyfall('glints', DEMO, '--setup', '1c');
    expect(setup.code).toBe(BAD_INPUT);
    expect(setup.err).toContain('1a');
    expect((await keyfall('glints', DEMO, '--no-cure')).err).toContain('--no-cures');
  });
});
