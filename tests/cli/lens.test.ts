import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited, smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
const QUAY = `${SCENES}night-quay.json`;
const scene = (name: string, changes: Record<string, unknown>) =>
  file(name, JSON.stringify(edited(smallScene(), changes)));

describe('keyfall lens', () => {
  it('prints the lens, what is in shot and what to do about it', async () => {
    const { code, out, err } = await keyfall('lens', QUAY);
    expect(err).toBe('');
    expect(out).toContain('54.4° across');
    expect(out).toContain('hidden by Ada');
    expect(out).toContain('Cables are not checked');
    expect(code === 0 || code === 1).toBe(true);
    expect(code).toBe(out.includes('Move it, hide it or paint it out') ? 1 : 0);
  });

  it('answers no when a stand is in shot, yes when none is', async () => {
    const stand = { maxHeight_m: 3, footRadius_m: 0.5 };
    const behind = scene('behind.json', { 'lamps.0.stand': stand });
    expect((await keyfall('lens', behind)).code).toBe(0);
    const before = scene('before.json', {
      'lamps.0.stand': stand,
      'lamps.0.position_m': [0.4, 1, -3],
      solids: [],
    });
    expect((await keyfall('lens', before)).code).toBe(1);
  });

  it('prints one JSON object with --json', async () => {
    const { out } = await keyfall('lens', QUAY, '--camera', 'b', '--fps', '24', '--pixels', '4096', '--json');
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual([
      ...['keyfall', 'title', 'setup', 'camera', 'lens', 'shutter', 'flicker', 'moves'],
      ...['lamps', 'figures', 'marks', 'cables', 'clean'],
    ]);
    expect(report.camera).toBe('b');
    expect(report.shutter).toMatchObject({ rate_fps: 24, angle_deg: 172.8, frameWidth_px: 4096 });
    expect(report.cables).toBe('not checked');
  });

  it('refuses nonsense', async () => {
    for (const [args, words] of [
      [[QUAY, '--camera', 'c'], 'no camera "c"'],
      [[QUAY, '--fps', '0'], '--fps 0: give a number from 1 to 10000'],
      [[QUAY, '--pixels', 'many'], '--pixels many'],
      [[scene('none.json', { cameras: [] })], 'found no camera'],
      [[`${SCENES}none.json`], 'no such file'],
    ] as const) {
      const { code, out, err } = await keyfall('lens', ...args);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).toContain(words);
    }
  });
});
