import { execFile, spawn } from 'node:child_process';
import { chmodSync, mkdirSync, rmSync, symlinkSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { keyfall, SCENES, temporaryFolder } from '../support/command-line.ts';
import { edited, smallScene } from '../support/scenes.ts';

const { file, path } = temporaryFolder();
const QUAY = `${SCENES}night-quay.json`;

async function refused(...args: string[]): Promise<string> {
  const { code, out, err } = await keyfall(...args);
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err.trim()).not.toBe('');
  expect(err).not.toMatch(/\bat .*\.ts:\d+/);
  return err.trimEnd();
}

describe('wrong use', () => {
  it.each<[string, string[], string | RegExp]>([
    ['no command', [], /^keyfall <command> SCENE \[options\]/],
    [
      'an unknown command',
      ['metre', QUAY],
      /^keyfall: no command "metre"; there are check, meter.*; did you mean meter\?$/,
    ],
    [
      'an unknown command like nothing',
      ['zzzzzzzzzz', QUAY],
      /^keyfall: no command "zzzzzzzzzz"; there are [^;]*$/,
    ],
    ['a command called constructor', ['constructor', QUAY], /^keyfall: no command "constructor"/],
    ['a scene in place of the command', [QUAY], /^keyfall: no command "/],
    ['no scene', ['meter'], 'keyfall meter: name a scene file: keyfall meter SCENE'],
    ['no scene but options', ['meter', '--json'], 'keyfall meter: name a scene file: keyfall meter SCENE'],
    ['two scenes', ['meter', QUAY, 'b.json'], 'keyfall meter: one scene at a time; what is "b.json"?'],
    [
      'an unknown option',
      ['meter', QUAY, '--stup', '1a'],
      'keyfall meter: no option --stup; did you mean --setup? (keyfall meter --help lists the options)',
    ],
    [
      'an option like nothing',
      ['meter', QUAY, '--zzzzzzzz'],
      'keyfall meter: no option --zzzzzzzz (keyfall meter --help lists the options)',
    ],
    [
      'an option called constructor',
      ['meter', QUAY, '--constructor'],
      'keyfall meter: no option --constructor (keyfall meter --help lists the options)',
    ],
    [
      'an option called __proto__',
      ['meter', QUAY, '--__proto__=1'],
      'keyfall meter: no option --__proto__ (keyfall meter --help lists the options)',
    ],
    [
      'a short option',
      ['meter', QUAY, '-s'],
      'keyfall meter: no option -s (keyfall meter --help lists the options)',
    ],
    ['another command’s option', ['check', QUAY, '--setup', '1a'], /^keyfall check: no option --setup/],
    [
      'an option without its value',
      ['meter', QUAY, '--setup'],
      'keyfall meter: --setup needs a value (keyfall meter --help lists the options)',
    ],
    [
      'an option in place of a value',
      ['meter', QUAY, '--setup', '--json'],
      'keyfall meter: --setup needs a value (keyfall meter --help lists the options)',
    ],
    [
      'a value where none goes',
      ['meter', QUAY, '--json=yes'],
      'keyfall meter: --json takes no value, so what is "yes"? (keyfall meter --help lists the options)',
    ],
    [
      'nonsense for --error',
      ['meter', QUAY, '--error', 'nonsense'],
      'keyfall meter: --error nonsense: give a number from 0.001 to 2',
    ],
    [
      'nothing for --error',
      ['meter', QUAY, '--error='],
      'keyfall meter: --error : give a number from 0.001 to 2',
    ],
    [
      'zero for --error',
      ['meter', QUAY, '--error', '0'],
      'keyfall meter: --error 0: give a number from 0.001 to 2',
    ],
    [
      'less than nothing for --error',
      ['meter', QUAY, '--error', '-1'],
      'keyfall meter: --error -1: give a number from 0.001 to 2',
    ],
    [
      'NaN for --error',
      ['meter', QUAY, '--error', 'NaN'],
      'keyfall meter: --error NaN: give a number from 0.001 to 2',
    ],
    [
      'infinity for --error',
      ['meter', QUAY, '--error', 'Infinity'],
      'keyfall meter: --error Infinity: give a number from 0.001 to 2',
    ],
    ['an unknown unit', ['meter', QUAY, '--unit', 'cd'], 'keyfall meter: --unit cd: give lx or fc'],
    [
      'an unknown setup',
      ['meter', QUAY, '--setup', '1c'],
      'setups: found no setup "1c"; expected one of 1a, 1b, 2, 3, 4, 5; did you mean "1a"?',
    ],
    [
      'an unknown camera',
      ['meter', QUAY, '--camera', 'c'],
      'cameras: found no camera "c"; expected one of a, b; did you mean "a"?',
    ],
    [
      'a setup called __proto__',
      ['meter', QUAY, '--setup', '__proto__'],
      'setups: found no setup "__proto__"; expected one of 1a, 1b, 2, 3, 4, 5',
    ],
    [
      'a setup that would drive the terminal',
      ['meter', QUAY, '--setup', '\u001b[2J'],
      'setups: found no setup "\\u001b[2J"; expected one of 1a, 1b, 2, 3, 4, 5',
    ],
  ])('%s', async (_, args, message) => {
    const err = await refused(...args);
    if (typeof message === 'string') expect(err).toBe(message);
    else expect(err).toMatch(message);
  });

  it.each(['check', 'meter'])('%s of what is no scene file', async (command) => {
    expect(await refused(command, path('gone.json'))).toBe(
      `keyfall ${command}: ${path('gone.json')}: no such file`,
    );
    expect(await refused(command, path('gone/deeper.json'))).toBe(
      `keyfall ${command}: ${path('gone/deeper.json')}: no such file`,
    );
    expect(await refused(command, file('plain.json', '{}').concat('/below.json'))).toMatch(/: no such file$/);
    expect(await refused(command, SCENES)).toBe(`keyfall ${command}: ${SCENES}: a folder, not a file`);
    expect(await refused(command, '')).toMatch(/: no such file$/);
    expect(await refused(command, 'a\u0000b')).toMatch(/^keyfall /);
    expect(await refused(command, '/dev/zero')).toBe(`keyfall ${command}: /dev/zero: not a plain file`);
    mkdirSync(path(`${command}-ring`));
    symlinkSync(path(`${command}-ring/x`), path(`${command}-ring/x`));
    expect(await refused(command, path(`${command}-ring/x`))).toMatch(/^keyfall /);
  });

  it('says every problem of an invalid scene on stderr, with file and line, and nothing on stdout', async () => {
    const scene = file(
      'bad.json',
      JSON.stringify(edited(smallScene(), { 'lamps.0.level': 3, 'marks.0.receptor': 'ball' }), null, 2),
    );
    for (const options of [[], ['--json']]) {
      const lines = (await refused('meter', scene, ...options)).split('\n');
      expect(lines).toHaveLength(3);
      expect(lines[0]).toMatch(/bad\.json:\d+: lamps\[0\]\.level \(key\): found 3; expected at most 1/);
      expect(lines[1]).toMatch(/bad\.json:\d+: marks\[0\]\.receptor \(face\): found "ball"/);
      expect(lines[2]).toBe(`keyfall meter: ${scene} is not a valid scene`);
    }
  });

  it('meters no scene without marks or cameras', async () => {
    expect(
      await refused('meter', file('no-marks.json', JSON.stringify({ ...smallScene(), marks: [] }))),
    ).toBe('marks: found no marks; expected at least one place where the meter is held');
    expect(
      await refused('meter', file('no-cameras.json', JSON.stringify({ ...smallScene(), cameras: [] }))),
    ).toBe('cameras: found no camera; expected a camera, because stops are counted from its exposure');
  });
});

describe('help', () => {
  it.each([['--help'], ['-h'], ['help']])('%s lists the commands', async (word) => {
    const { code, out, err } = await keyfall(word);
    expect([code, err]).toEqual([0, '']);
    for (const command of ['check', 'meter']) expect(out).toMatch(new RegExp(`^  ${command} `, 'm'));
    expect(out).toContain('Exit code 0: done; 1: the answer is no; 2: bad input or usage.');
  });

  it('of a command lists its options, scene or not', async () => {
    for (const args of [
      ['meter', '--help'],
      ['meter', QUAY, '--help'],
    ]) {
      const { code, out, err } = await keyfall(...args);
      expect([code, err]).toEqual([0, '']);
      for (const option of [
        '--setup ID',
        '--camera ID',
        '--json',
        '--direct',
        '--error STOPS',
        '--unit lx|fc',
        '--help',
      ])
        expect(out).toContain(option);
    }
  });
});

const run = promisify(execFile);
const ROOT = fileURLToPath(new URL('../../', import.meta.url));

async function started(command: string, args: string[]): Promise<{ code: number; out: string; err: string }> {
  try {
    const { stdout, stderr } = await run(command, args, { cwd: ROOT });
    return { code: 0, out: stdout, err: stderr };
  } catch (error) {
    const { code, stdout, stderr } = error as { code: number; stdout: string; stderr: string };
    return { code, out: stdout, err: stderr };
  }
}

describe('as a process of its own', () => {
  const npm = (...args: string[]) => started('npm', ['run', '-s', 'keyfall', '--', ...args]);

  it('gives its answer on stdout and exits 0', { timeout: 20_000 }, async () => {
    const { code, out, err } = await npm('meter', 'scenes/lamp-and-card.json', '--json', '--direct');
    expect([code, err]).toEqual([0, '']);
    expect(JSON.parse(out).marks).toHaveLength(3);
  });

  it('says what is wrong on stderr and exits 2', { timeout: 20_000 }, async () => {
    const { code, out, err } = await npm('meter', 'scenes/night-quay.json', '--setup', '1c');
    expect([code, out]).toEqual([2, '']);
    expect(err).toBe('setups: found no setup "1c"; expected one of 1a, 1b, 2, 3, 4, 5; did you mean "1a"?\n');
  });

  it('runs from its bundle, as a program that a shell can start', { timeout: 60_000 }, async () => {
    // Within node_modules, because the bundle leaves the packages outside.
    const folder = `${ROOT}node_modules/.keyfall-test-${process.pid}`;
    try {
      const built = await started('npx', [
        'vite',
        'build',
        '--mode',
        'cli',
        '--outDir',
        folder,
        '--emptyOutDir',
      ]);
      expect(built.code, built.err).toBe(0);
      chmodSync(`${folder}/keyfall.js`, 0o755);
      const { code, out, err } = await started(`${folder}/keyfall.js`, [
        'check',
        'scenes/night-quay.json',
        '--json',
      ]);
      expect([code, err]).toEqual([0, '']);
      expect(JSON.parse(out)).toEqual({ keyfall: 1, valid: true, problems: [] });
      expect((await started('node', [`${folder}/keyfall.js`, 'check', 'gone.json'])).code).toBe(2);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('does not mind a reader that has seen enough', { timeout: 20_000 }, async () => {
    const child = spawn('npx', ['tsx', 'src/cli/keyfall.ts', 'meter', 'scenes/night-quay.json', '--direct'], {
      cwd: ROOT,
    });
    child.stdout.destroy();
    let err = '';
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect([code, err]).toEqual([0, '']);
  });
});
