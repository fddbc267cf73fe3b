import { mkdirSync, symlinkSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/scene/commands/apply-command.ts';
import { openRaw, openScene } from '../../src/scene/file/open-scene.ts';
import { saveScene } from '../../src/scene/file/save-scene.ts';
import { problemText } from '../../src/scene/problems/problem.ts';
import { keyfall, temporaryFolder } from '../support/command-line.ts';
import { glb, gltf } from '../support/meshes.ts';
import { edited, fullScene, smallScene } from '../support/scenes.ts';

const { file, path } = temporaryFolder();

/** What `check` and `meter` make of a scene that is no good: code 2, a message, nothing half-done, no trace. */
async function refused(scene: string): Promise<string> {
  const check = await keyfall('check', scene);
  const meter = await keyfall('meter', scene);
  expect([check.code, meter.code]).toEqual([2, 2]);
  expect(meter.out).toBe('');
  expect(meter.err).not.toBe('');
  const asJson = await keyfall('check', scene, '--json');
  expect(asJson.code).toBe(2);
  if (asJson.out !== '') expect(JSON.parse(asJson.out)).toMatchObject({ valid: false });
  for (const text of [check.out, check.err, meter.err, asJson.out, asJson.err]) {
    expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\u2028\u2029]/u);
    expect(text).not.toMatch(/\bat .*\.ts:\d+/);
  }
  return check.out + check.err;
}

describe('files that are no scene', () => {
  it.each([
    ['empty', '', /found an empty file/],
    ['blank', ' \n', /found an empty file/],
    ['prose', 'Dear gaffer,', /:1: \(document\): found "Dear gaffer,"/],
    ['binary', '\u0000\u0001\ufffd\u0002', /:1: \(document\): found/],
    ['NaN', '{"keyfall": 1, "title": "", "haze": {"visibility_m": NaN}}', /NaN and Infinity are not JSON/],
    [
      'Infinity',
      '{"keyfall": 1, "title": "", "haze": {"visibility_m": Infinity}}',
      /NaN and Infinity are not JSON/,
    ],
    [
      '1e999',
      '{"keyfall": 1, "title": "", "haze": {"visibility_m": 1e999}}',
      /haze\.visibility_m: found Infinity; expected a finite number/,
    ],
    [
      '-1e999',
      '{"keyfall": 1, "title": "", "marks": [{"id": "m", "position_m": [0, -1e999, 0]}]}',
      /found -Infinity/,
    ],
    ['comment', '{"keyfall": 1, // one\n"title": ""}', /expected no comments/],
    ['trailing comma', '{"keyfall": 1, "title": "",}', /no comma after the last field/],
    ['twice', '{"keyfall": 1, "title": "a", "title": "b"}', /found the name "title" twice/],
    ['deep', '['.repeat(100_000), /more than 40 brackets/],
    [
      'deep and closed',
      `{"keyfall": 1, "title": ${'['.repeat(100_000)}${']'.repeat(100_000)}}`,
      /more than 40 brackets/,
    ],
    ['null', 'null', /found null; expected a scene/],
    ['list', '[]', /found \[\]; expected a scene/],
    ['version 2', '{"keyfall": 2, "title": ""}', /a scene of a newer Keyfall/],
  ])('%s', async (name, text, reason) => {
    expect(await refused(file(`${name}.json`, text))).toMatch(reason);
  });

  it('50 MB, by its size and before it is read', async () => {
    const huge = file('huge.json', new Uint8Array(50_000_000).fill(0x20));
    const start = performance.now();
    expect(await refused(huge)).toMatch(/huge\.json: 50\.0 MB; a scene is at most 20 MB/);
    expect(performance.now() - start).toBeLessThan(1000);
  });

  it('100 000 marks', async () => {
    const marks = Array.from({ length: 100_000 }, (_, i) => ({ id: `m-${i}`, position_m: [0, 0, 0] }));
    const scene = file('marks.json', JSON.stringify({ ...smallScene(), marks }));
    expect(await refused(scene)).toMatch(/marks: found a list of 100000; expected at most 2000 entries/);
  });

  it('100 000 marks that are none, 100 000 names that are not there', () => {
    const many = (entry: string) => Array.from({ length: 100_000 }, () => entry).join(',');
    for (const entry of ['{}', '{"facing":"lamp:kex"}', '7', '[]']) {
      const { document, problems } = openScene(`{"keyfall":1,"title":"","marks":[${many(entry)}]}`);
      expect(document).toBeNull();
      expect(problems.length).toBeGreaterThan(0);
      expect(problems.length).toBeLessThanOrEqual(201);
    }
  });

  it('50 000 unknown fields', () => {
    const fields = Array.from({ length: 50_000 }, (_, i) => `"f${i}":0`).join(',');
    expect(openScene(`{"keyfall":1,"title":"",${fields}}`).problems).toHaveLength(200);
  });
});

describe('names of prototypes', () => {
  const NAMES = [
    '__proto__',
    'constructor',
    'prototype',
    'toString',
    'hasOwnProperty',
    'valueOf',
    '__defineGetter__',
  ];
  const lines = (raw: unknown) => openRaw(raw).problems.map((p) => problemText(p));

  it.each(NAMES)('%s is an unknown field everywhere', (name) => {
    for (const at of [
      '',
      'site.',
      'haze.',
      'solids.0.',
      'solids.6.windows.0.',
      'heads.big.',
      'heads.big.face.',
      'lamps.0.',
      'marks.0.',
      'cameras.0.',
      'setups.0.',
    ])
      expect(lines(edited(fullScene(), { [`${at}${name}`]: { polluted: 1 } }))[0]).toMatch(
        /found an unknown field/,
      );
  });

  it.each(NAMES)('%s names nothing that a reference could mean', (name) => {
    for (const at of [
      'solids.0.material',
      'solids.5.pane',
      'lamps.0.head',
      'lamps.0.supply',
      'readings.0.mark',
      'materials.chart.reflectance',
    ])
      expect(lines(edited(fullScene(), { [at]: name }))).toHaveLength(1);
    expect(lines(edited(fullScene(), { 'marks.1.facing': `lamp:${name}` }))).toHaveLength(1);
    expect(
      lines(edited(fullScene(), { 'setups.0.changes': JSON.parse(`{"${name}": {"polluted": 1}}`) })),
    ).toHaveLength(1);
    expect(
      lines(edited(fullScene(), { 'setups.0.changes.key': JSON.parse(`{"${name}": {"polluted": 1}}`) }))[0],
    ).toMatch(/setups\[0\]\.changes\.key\./);
  });

  it('that could be ids are ids, and as good as any', () => {
    const raw = edited(smallScene(), {
      'lamps.0.id': 'constructor',
      'marks.0.facing': 'lamp:constructor',
      'marks.0.id': 'prototype',
      materials: { constructor: { reflectance: 0.5 } },
      'solids.0.material': 'constructor',
      setups: [{ id: 's', changes: { prototype: { facing: 'camera' } } }],
    });
    const { document, problems } = openRaw(raw);
    expect(problems).toEqual([]);
    const text = saveScene(document!);
    expect(openScene(text).document).toEqual(document);
    const renamed = applyCommand(document!, { do: 'rename', id: 'constructor', to: 'key' });
    expect(renamed.document?.marks?.[0]?.facing).toBe('lamp:key');
  });

  it.each(['materials', 'panes', 'filters', 'heads'])('__proto__ is no name in %s', (dictionary) => {
    const entry = {
      materials: { reflectance: 0.5 },
      panes: { direct: 1 },
      filters: { kind: 'net', stops: 1 },
      heads: smallScene().heads!.plain,
    }[dictionary];
    const raw = smallScene() as unknown as Record<string, unknown>;
    raw[dictionary] = JSON.parse(
      `{"plain": ${JSON.stringify(entry)}, "__proto__": ${JSON.stringify(entry)}}`,
    );
    expect(lines(raw)).toEqual([
      `${dictionary}.__proto__: found the name "__proto__"; expected a name in small letters, digits and single hyphens, such as "key-1"`,
    ]);
  });

  it('pollute nothing', async () => {
    await refused(
      file(
        'proto.json',
        '{"keyfall":1,"title":"","__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":1}}}',
      ),
    );
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    expect(Object.prototype).not.toHaveProperty('polluted');
  });
});

describe('control characters and escape sequences', () => {
  const ESCAPES = ['\u001b[2J\u001b[H', '\u0007', '\r', '\u0000', '\u009b31m', '\u2028', '\u007f'];

  it.each(ESCAPES)('%j are refused in names and titles, and shown as escapes', async (control) => {
    const scene = edited(smallScene(), {
      title: `T${control}`,
      'lamps.0.name': `L${control}`,
      'marks.0.id': `m${control}`,
    });
    const text = await refused(file('escape.json', JSON.stringify(scene)));
    expect(text).toMatch(/title: found "T\\/);
    expect(text).toMatch(/lamps\[0\]\.name \(key\): found "L\\/);
  });

  it.each(ESCAPES)('%j are shown as escapes wherever else they come', async (control) => {
    const scene = edited(smallScene(), {
      [`x${control}`]: 1,
      'marks.0.facing': { [control]: control },
      'lamps.0.head': control,
    });
    await refused(file('escapes.json', JSON.stringify(scene)));
  });

  it('emoji, right-to-left and joined letters are text like any other', async () => {
    const scene = edited(smallScene(), { title: '夜 🎬 👩‍🚀 قارب é', 'marks.0.name': 'قارب' });
    const { code, out } = await keyfall('meter', file('letters.json', JSON.stringify(scene)), '--direct');
    expect(code).toBe(0);
    expect(out).toContain('夜 🎬 👩‍🚀 قارب é');
  });
});

function filed(name: string, more: object = {}): unknown {
  return edited(smallScene(), { 'heads.plain.photometry': { kind: 'file', file: name, ...more } });
}

function meshed(name: string): unknown {
  return edited(smallScene(), {
    'solids.1': { id: 'mesh', shape: 'mesh', position_m: [0, 0, -3], material: 'concrete', file: name },
  });
}

describe('names of files', () => {
  it.each([
    '../secret.ies',
    '/etc/passwd',
    'C:\\secret.ies',
    'a/b.ies',
    'a\\b.ies',
    '.hidden',
    '..',
    '.',
    '',
    'a\u0000.ies',
    'x:stream',
    'file:///etc/passwd',
    'a'.repeat(129),
  ])('%j is no plain name', async (name) => {
    for (const scene of [filed(name), meshed(name)])
      expect(await refused(file('names.json', JSON.stringify(scene)))).toMatch(
        /the plain name of a file that stands beside|at most 128 characters/,
      );
  });

  it('that are not there are missed', async () => {
    for (const [name, scene] of [
      ['gone.ies', filed('gone.ies')],
      ['gone.glb', meshed('gone.glb')],
      ['NUL', filed('NUL')],
    ] as const)
      expect(await refused(file('missing.json', JSON.stringify(scene)))).toContain(
        `found "${name}": no such file; expected a file that stands beside the scene`,
      );
  });

  it('of folders and devices are refused and not waited for', async () => {
    mkdirSync(path('folder.ies'));
    expect(await refused(file('folder.json', JSON.stringify(filed('folder.ies'))))).toContain(
      '"folder.ies": a folder, not a file',
    );
    symlinkSync('/dev/zero', path('endless.ies'));
    expect(await refused(file('device.json', JSON.stringify(filed('endless.ies'))))).toContain(
      '"endless.ies": not a plain file',
    );
  });

  it('may be a link to a plain file, because whoever owns the folder put it there', async () => {
    file('target.txt', 'IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 2 1 1 2 0 0 0\n1 1 100\n0 90\n0\n2000 2000\n');
    symlinkSync(path('target.txt'), path('link.ies'));
    expect(
      (await keyfall('meter', file('link.json', JSON.stringify(filed('link.ies'))), '--direct')).code,
    ).toBe(0);
  });
});

describe('photometric files', () => {
  it.each([
    ['empty', '', /found nothing in line 1 of "broken\.ies"; expected an LM-63 or EULUMDAT file/],
    [
      'a web page',
      '<html><body>404</body></html>',
      /in line 1 of "broken\.ies"; expected a line that begins TILT=/,
    ],
    [
      'cut short',
      'IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 5 1 1 2 0 0 0\n1 1 100\n0 22.5',
      /in line \d+ of "broken\.ies"/,
    ],
    [
      'with a count that would fill the memory',
      'IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 999999999 999999999 1 2 0 0 0\n1 1 100\n',
      /in line \d+ of "broken\.ies"/,
    ],
    [
      'with an escape sequence in it',
      'IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 2 1 1 2 0 0 \u001b[2J\n1 1 100\n',
      /in line \d+ of "broken\.ies"/,
    ],
  ])('%s', async (_, content, reason) => {
    file('broken.ies', content);
    expect(await refused(file('broken.json', JSON.stringify(filed('broken.ies'))))).toMatch(reason);
    expect(
      await refused(file('inside.json', JSON.stringify(filed('broken.ies', { text: content })))),
    ).toMatch(reason);
  });

  it('of 60 MB, by size', async () => {
    file('large.ies', new Uint8Array(60_000_000));
    expect(await refused(file('large.json', JSON.stringify(filed('large.ies'))))).toContain(
      '"large.ies": 60 MB is too large',
    );
  });

  it('sound ones inside the document need none beside it', async () => {
    const text = 'IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 2 1 1 2 0 0 0\n1 1 100\n0 90\n0\n2000 2000\n';
    const { code, out } = await keyfall(
      'meter',
      file('sound.json', JSON.stringify(filed('gone.ies', { text }))),
      '--direct',
      '--json',
    );
    expect(code).toBe(0);
    // Derived: 2000 cd at 3.99 m.
    expect(JSON.parse(out).marks[0].illuminance_lx).toBeCloseTo(2000 / 3.99 ** 2, 1);
  });
});

describe('meshes', () => {
  it.each<[string, () => Promise<Uint8Array> | Uint8Array, RegExp]>([
    ['no glTF', () => new TextEncoder().encode('solid cube\n'), /"x\.glb": it is not a glTF file/],
    ['cut short', async () => (await glb()).slice(0, 200), /"x\.glb": it is cut short/],
    [
      'data elsewhere',
      () =>
        gltf((json) => {
          json.buffers![0]!.uri = 'data.bin';
        }),
      /its data lie in other files; save it as one \.glb/,
    ],
    [
      'data on the network',
      () =>
        gltf((json) => {
          json.buffers![0]!.uri = 'http://127.0.0.1:9/x.bin';
        }),
      /its data lie in other files/,
    ],
    [
      'a ring of nodes',
      () =>
        gltf((json) => {
          json.nodes = [{ mesh: 0, children: [1] }, { children: [0] }];
        }),
      /its nodes hang in a ring/,
    ],
    [
      'counts without figures',
      () =>
        gltf((json) => {
          json.accessors![0] = { componentType: 5126, type: 'VEC3', count: 2e9 };
        }),
      /it states \d+ elements/,
    ],
  ])('%s', async (_, make, reason) => {
    file('x.glb', await make());
    expect(await refused(file('mesh.json', JSON.stringify(meshed('x.glb'))))).toMatch(reason);
  });

  it('sound ones throw their shadow', async () => {
    file('ok.glb', await glb());
    file('ok.gltf', await gltf());
    for (const name of ['ok.glb', 'ok.gltf']) {
      // The triangle (10, 0, 0) (11, 0, 0) (10, 1, 0), ten times as large, put between lamp and mark.
      const screen = {
        id: 'screen',
        shape: 'mesh',
        position_m: [-101, -1, 2],
        material: 'concrete',
        file: name,
        scale: 10,
      };
      const scene = file('shadow.json', JSON.stringify(edited(smallScene(), { 'solids.1': screen })));
      const { code, out } = await keyfall('meter', scene, '--direct', '--json');
      expect(code).toBe(0);
      expect(JSON.parse(out).marks[0]).toMatchObject({ illuminance_lx: 0, lamps: [{ visible: 0 }] });
    }
  });
});
