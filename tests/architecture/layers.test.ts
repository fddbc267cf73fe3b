import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { importsOf, LAYERS, resolved, violations } from './layer-rules.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const FILES = programs('src');
const textOf = (path: string) => readFileSync(`${ROOT}${path}`, 'utf8');
const MOST_LINES = 400;

/** Every program under a folder, as a path relative to it. */
function programs(folder: string): string[] {
  return readdirSync(`${ROOT}${folder}`, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => /\.tsx?$/.test(path));
}

describe('the layers of src', () => {
  it('are the ones of the design', () => {
    expect(FILES.length).toBeGreaterThan(100);
    const folders = readdirSync(`${ROOT}src`, { withFileTypes: true });
    expect(folders.filter((entry) => !entry.isDirectory()).map((entry) => entry.name)).toEqual([]);
    for (const { name } of folders) expect(Object.keys(LAYERS)).toContain(name);
  });

  it('import what they may and nothing else; core, scene and paperwork know no clock, chance or platform', () => {
    expect(FILES.flatMap((path) => violations(path, textOf(`src/${path}`)))).toEqual([]);
  });

  it(`keep their files under ${MOST_LINES} lines`, () => {
    const long = FILES.filter((path) => textOf(`src/${path}`).trimEnd().split('\n').length > MOST_LINES);
    expect(long).toEqual([]);
  });

  it('have each a tsconfig of its own, without the browser in the pure ones', () => {
    for (const { name } of readdirSync(`${ROOT}src`, { withFileTypes: true })) {
      const config = JSON.parse(textOf(`src/${name}/tsconfig.json`)) as {
        extends: string;
        compilerOptions: { lib: string[]; types: string[] };
      };
      expect(config.extends, name).toBe('../../tsconfig.json');
      if (!LAYERS[name]!.pure) continue;
      expect(config.compilerOptions, name).toEqual({ lib: ['ES2023'], types: [] });
    }
  });
});

describe('tests of the core', () => {
  const folders = ['core', 'analytic', 'reference', 'statistical'].filter((name) =>
    existsSync(`${ROOT}tests/${name}`),
  );
  const files = folders.flatMap((name) => programs(`tests/${name}`).map((path) => `tests/${name}/${path}`));

  it('need neither React nor three, nor anything of src beyond the core', () => {
    const foreign: string[] = [];
    const followed = new Set<string>();
    const follow = (path: string) => {
      if (followed.has(path)) return;
      followed.add(path);
      for (const specifier of importsOf(path, textOf(path))) {
        if (specifier === null || /^(vitest|fast-check|node:.*)$/.test(specifier)) continue;
        const target = specifier.startsWith('.') ? resolved(path, specifier) : specifier;
        if (target.startsWith('tests/')) {
          if (/\.tsx?$/.test(target)) follow(target);
        } else if (!/^(src\/core|assets)\//.test(target)) {
          foreign.push(`${path}: ${target}`);
        }
      }
    };
    for (const path of files) follow(path);
    expect(files.length).toBeGreaterThan(30);
    expect(foreign).toEqual([]);
  });
});

describe('the checker itself', () => {
  const one = (path: string, code: string) => {
    const found = violations(path, code);
    expect(found).toHaveLength(1);
    return found[0];
  };

  it.each([
    ['core/a.ts', "import { x } from '../scene/x.ts';", 'core/a.ts: imports ../scene/x.ts, which is scene'],
    [
      'core/a.ts',
      "import type { X } from '../scene/x.ts';",
      'core/a.ts: imports ../scene/x.ts, which is scene',
    ],
    ['core/b/a.ts', "import '../../scene/x.ts';", 'core/b/a.ts: imports ../../scene/x.ts, which is scene'],
    ['core/a.ts', "export { x } from '../scene/x.ts';", 'core/a.ts: imports ../scene/x.ts, which is scene'],
    [
      'core/a.ts',
      "export type { X } from '../scene/x.ts';",
      'core/a.ts: imports ../scene/x.ts, which is scene',
    ],
    ['core/a.ts', "export * from '../scene/x.ts';", 'core/a.ts: imports ../scene/x.ts, which is scene'],
    [
      'core/a.ts',
      "const x = await import('../scene/x.ts');",
      'core/a.ts: imports ../scene/x.ts, which is scene',
    ],
    ['core/a.ts', "type X = import('../scene/x.ts').X;", 'core/a.ts: imports ../scene/x.ts, which is scene'],
    [
      'core/a.ts',
      "let x: typeof import('../scene/x.ts');",
      'core/a.ts: imports ../scene/x.ts, which is scene',
    ],
    ['core/a.ts', "import x = require('../scene/x.ts');", 'core/a.ts: imports ../scene/x.ts, which is scene'],
    [
      'core/a.ts',
      "new Worker_(new URL('../scene/x.ts', import.meta.url));",
      'core/a.ts: imports ../scene/x.ts, which is scene',
    ],
    [
      'core/a.ts',
      "import { z } from 'zod';",
      'core/a.ts: imports zod, a package that is not listed for core',
    ],
    [
      'core/a.ts',
      "import type { Vector3 } from 'three';",
      'core/a.ts: imports three, a package that is not listed for core',
    ],
    [
      'core/a.ts',
      "import { readFileSync } from 'node:fs';",
      'core/a.ts: imports node:fs, which only the command line may',
    ],
    [
      'core/a.ts',
      "import s from '../../assets/spectra/x.json';",
      'core/a.ts: imports ../../assets/spectra/x.json, which is outside src and no data that it may read',
    ],
    [
      'core/a.ts',
      "import { x } from '../../tests/x.ts';",
      'core/a.ts: imports ../../tests/x.ts, which is outside src and no data that it may read',
    ],
    ['core/a.ts', "import { x } from './b';", 'core/a.ts: imports ./b, without the extension of the file'],
    [
      'core/a.ts',
      'const x = await import(name);',
      'core/a.ts: imports something that is named only when it runs',
    ],
    ['scene/a.ts', "import { x } from '../cli/x.ts';", 'scene/a.ts: imports ../cli/x.ts, which is cli'],
    [
      'scene/a.ts',
      "import { x } from '../paperwork/x.ts';",
      'scene/a.ts: imports ../paperwork/x.ts, which is paperwork',
    ],
    [
      'scene/a.ts',
      "import r from 'react';",
      'scene/a.ts: imports react, a package that is not listed for scene',
    ],
    [
      'scene/a.ts',
      "import { x } from '@gltf-transform/extensions';",
      'scene/a.ts: imports @gltf-transform/extensions, a package that is not listed for scene',
    ],
    [
      'scene/a.ts',
      "import x from '../../assets/x.ts';",
      'scene/a.ts: imports ../../assets/x.ts, which is outside src and no data that it may read',
    ],
    [
      'paperwork/a.ts',
      "import { x } from '../editor/x.tsx';",
      'paperwork/a.ts: imports ../editor/x.tsx, which is editor',
    ],
    [
      'preview/a.ts',
      "import { useFrame } from '@react-three/fiber';",
      'preview/a.ts: imports @react-three/fiber, a package that is not listed for preview',
    ],
    ['cli/a.ts', "import { x } from '../editor/x.ts';", 'cli/a.ts: imports ../editor/x.ts, which is editor'],
    ['editor/a.tsx', "import { x } from '../cli/x.ts';", 'editor/a.tsx: imports ../cli/x.ts, which is cli'],
    [
      'editor/a.tsx',
      "import { x } from 'node:fs';",
      'editor/a.tsx: imports node:fs, which only the command line may',
    ],
    ['utils/a.ts', '', 'utils/a.ts: no layer "utils"'],
    ['constructor/a.ts', '', 'constructor/a.ts: no layer "constructor"'],
  ])('%s with %s', (path, code, message) => expect(one(path, code)).toBe(message));

  it.each([
    ['Math.random()', 'Math.random'],
    ["Math['random']()", 'Math.random'],
    ['const { random } = Math;', 'Math.random'],
    ['const m = Math; m.random();', 'Math.random'],
    ['Date.now()', 'Date'],
    ['new Date()', 'Date'],
    ['performance.now()', 'performance'],
    ['document.title', 'document'],
    ['window.innerWidth', 'window'],
    ['process.env.X', 'process'],
    ['console.log(1)', 'console'],
    ["fetch('x')", 'fetch'],
    ['setTimeout(f, 1)', 'setTimeout'],
    ['globalThis.Date', 'globalThis'],
    ['const now = { Date };', 'Date'],
    ['f(...[console])', 'console'],
  ])('in core and scene, %s', (code, name) => {
    expect(one('core/a.ts', code)).toBe(`core/a.ts: uses ${name}`);
    expect(one('scene/a.ts', code)).toBe(`scene/a.ts: uses ${name}`);
    expect(violations('cli/a.ts', code)).toEqual([]);
  });

  it.each([
    "import { a } from './a.ts'; import type { B } from '../core/b.ts';",
    'function f(document: Scene) { return document.title; }',
    'const f = (document) => ({ ...document, window: document.window });',
    'const { document, performance = 1 } = opened; document.process.Date;',
    'interface Opened { readonly document: Scene; window(): void }',
    'type F = (document: Scene) => void;',
    'const x = Math.floor(2.5) + scene.Date + { fetch: 1 }.fetch;',
    "// Date, Math.random()\nconst text = 'console.log(Date)';",
    'for (const window of vehicle.windows) window.sill_m;',
    "import windows from '../../assets/library/panes.json';",
  ])('finds nothing wrong with %s', (code) => expect(violations('scene/a.ts', code)).toEqual([]));

  it('finds several things wrong in one file, and tells of a file that is no program', () => {
    expect(violations('core/a.ts', "import 'react';\nimport '../scene/b.ts';\nDate.now();")).toHaveLength(3);
    expect(violations('core/a.ts', 'const = ;')).toHaveLength(1);
  });
});
