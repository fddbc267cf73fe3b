import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { smallScene } from '../support/scenes.ts';

const { file } = temporaryFolder();
const QUAY = `${SCENES}night-quay.json`;

describe('keyfall walk', () => {
  it('prints a strip chart and what is extreme on it', async () => {
    const { code, out, err } = await keyfall('walk', QUAY, '--path', 'crossing', '--step', '1');
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toContain('path crossing: Passer-by crosses behind');
    expect(out.split('\n').filter((line) => /^ ?\d\.\d /.test(line))).toHaveLength(7);
    expect(out).toMatch(/^Brightest at /m);
    expect(out).toMatch(/^In frame from /m);
  });

  it('watches only the marks that are named, one by one', async () => {
    const args = ['--step', '3', '--mark', 'ada-face', '--mark', 'ben-face', '--json'];
    const { code, out } = await keyfall('walk', QUAY, ...args);
    expect(code).toBe(0);
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual([
      ...[
        'keyfall',
        'title',
        'setup',
        'camera',
        'corrected',
        'path',
        'name',
        'of',
        'shutter_s',
        'frameWidth_px',
        'rate_fps',
      ],
      ...['zero_lx', 'steps', 'shadows', 'brightest', 'darkest', 'mostBlurred', 'inFrame'],
    ]);
    expect(report.steps).toHaveLength(3);
    expect(report.rate_fps).toBe(25);
  });

  it('is as the readings of the night say, unless told not to listen', async () => {
    const stops = async (...args: string[]) => {
      const { out } = await keyfall('walk', QUAY, '--step', '3', '--mark', 'hull', '--json', ...args);
      return JSON.parse(out).steps[0].lamps.find(({ id }: { id: string }) => id === 'back').stops as number;
    };
    expect((await keyfall('walk', QUAY, '--step', '3')).out).toContain(
      'a reading of the night would have them',
    );
    expect(await stops()).not.toBeCloseTo(await stops('--uncorrected'), 3);
  });

  it('refuses nonsense', async () => {
    const still = file('still.json', JSON.stringify(smallScene()));
    for (const [args, words] of [
      [[still], 'found no path that someone walks'],
      [[QUAY, '--path', 'crosing'], 'did you mean "crossing"?'],
      [[QUAY, '--mark', 'ada-fac'], 'did you mean "ada-face"?'],
      [[QUAY, '--step', '0'], '--step 0: give a number from 0.01 to 3600'],
      [[QUAY, '--mark'], '--mark needs a value'],
    ] as const) {
      const { code, out, err } = await keyfall('walk', ...args);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).toContain(words);
    }
  });
});
