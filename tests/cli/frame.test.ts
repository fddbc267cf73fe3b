import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { EXRLoader } from 'three/examples/jsm/loaders/EXRLoader.js';
import { describe, expect, it } from 'vitest';
import { readPng } from '../paperwork/picture-files/png-reader.ts';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CARD = `${SCENES}lamp-and-card.json`;
const folder = temporaryFolder();

/** In a process of its own: threads need the real loader. */
function frame(...args: string[]): string {
  return execFileSync(process.execPath, ['--import', 'tsx', 'src/cli/keyfall.ts', 'frame', ...args], {
    cwd: ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

describe('keyfall frame', () => {
  it('draws a card that reads −0.8 stop at −0.8 stop, the same every time', () => {
    const [first, second] = [folder.path('a.exr'), folder.path('b.exr')];
    const args = ['--size', '30x20', '--samples', '16'];
    frame(CARD, '-o', first, ...args);
    frame(CARD, '-o', second, ...args);
    const bytes = readFileSync(first);
    expect(bytes.equals(readFileSync(second))).toBe(true);
    const exr = new EXRLoader()
      .setDataType(1015)
      .parse(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer);
    const { width, height, data } = exr as unknown as { width: number; height: number; data: Float32Array };
    expect([width, height]).toEqual([30, 20]);
    const middle = 4 * (10 * 30 + 15);
    const Y = 0.2126 * data[middle]! + 0.7152 * data[middle + 1]! + 0.0722 * data[middle + 2]!;
    // derived: L/L₀ = (0.18·125/π)/12.5, as in the spot test
    expect(Math.abs(Math.log2(Y / ((0.18 * 125) / Math.PI / 12.5)))).toBeLessThan(0.1);
  }, 60_000);

  it('writes its settings into a PNG, and a labelled scale under the false colours', () => {
    const [plain, stops] = [folder.path('c.png'), folder.path('d.png')];
    frame(CARD, '-o', plain, '--size', '120x80', '--samples', '1');
    frame(CARD, '-o', stops, '--size', '120x80', '--samples', '1', '--stops');
    const bytes = readFileSync(plain);
    for (const words of ['One lamp, one card', 'ISO 800', '12.5 cd/m²', 'seed 1']) {
      expect(bytes.includes(Buffer.from(words)), words).toBe(true);
    }
    expect(readPng(bytes).height).toBe(80);
    expect(readPng(readFileSync(stops)).height).toBeGreaterThan(80);
  }, 60_000);

  it('develops in grey for a monochrome camera, and says so in the PNG', () => {
    const scene = JSON.parse(readFileSync(CARD, 'utf8'));
    scene.cameras[0].monochrome = { filter: 'red' };
    const file = folder.file('mono.json', JSON.stringify(scene));
    const out = folder.path('mono.png');
    frame(file, '-o', out, '--size', '24x16', '--samples', '1');
    const { rgb, texts } = readPng(readFileSync(out));
    expect(texts.get('Monochrome')).toBe('red filter');
    for (let i = 0; i < rgb.length; i += 3) expect([rgb[i + 1], rgb[i + 2]]).toEqual([rgb[i], rgb[i]]);
    expect(Math.max(...rgb)).toBeGreaterThan(40);
  }, 60_000);

  it('refuses what it cannot write, and leaves nothing behind', async () => {
    for (const [args, words] of [
      [[], 'name the picture'],
      [['-o', folder.path('x.jpg')], '.png or .exr'],
      [['-o', folder.path('nowhere/x.png')], 'not a folder that can be written to'],
      [['-o', folder.path('x.exr'), '--stops'], '--stops is for .png'],
      [['-o', folder.path('x.png'), '--size', '0'], '--size'],
      [['-o', folder.path('x.png'), '--size', '99999'], '--size'],
      [['-o', folder.path('x.png'), '--samples', 'many'], '--samples'],
    ] as const) {
      const { code, out, err } = await keyfall('frame', CARD, ...args);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).toContain(words);
    }
    expect(existsSync(folder.path('x.png'))).toBe(false);
  });
});
