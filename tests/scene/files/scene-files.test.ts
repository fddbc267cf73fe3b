import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type FileReader, MAX_FILE_BYTES, readSceneFiles } from '../../../src/scene/files/scene-files.ts';
import { problemText } from '../../../src/scene/problems/problem.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { glb } from '../../support/meshes.ts';
import { opened, smallScene } from '../../support/scenes.ts';

const PHOTOMETRY = new URL('../../fixtures/photometry/', import.meta.url);
const fixtures: FileReader = async (name) => readFileSync(new URL(name.replace('--', '/'), PHOTOMETRY));

function withHeads(...files: object[]): SceneDocument {
  const scene = smallScene();
  const head = scene.heads!.plain!;
  scene.heads = {
    plain: head,
    ...Object.fromEntries(
      files.map((file, i) => [`h-${i}`, { ...head, photometry: { kind: 'file', ...file } }]),
    ),
  } as NonNullable<SceneDocument['heads']>;
  return opened(scene);
}

function withMeshes(...names: string[]): SceneDocument {
  return opened({
    keyfall: 1,
    title: '',
    solids: names.map((file, i) => ({
      id: `m-${i}`,
      shape: 'mesh',
      position_m: [0, 0, 0],
      material: 'concrete',
      file,
    })),
  });
}

async function read(scene: SceneDocument, reader: FileReader = fixtures) {
  const { files, problems } = await readSceneFiles(scene, reader);
  return { files, lines: problems.map((p) => `${p.severity}: ${problemText(p)}`) };
}

const notFound: FileReader = () => Promise.reject(new Error('no such file'));

describe('files of a scene', () => {
  it('are none for a scene that names none', async () => {
    const { files, lines } = await read(smallScene(), notFound);
    expect([files.photometry.size, files.meshes.size, lines]).toEqual([0, 0, []]);
  });

  it('are read by head, both formats', async () => {
    const { files, lines } = await read(
      withHeads({ file: 'synthetic--lambert-C-h0.ies' }, { file: 'synthetic--isym1-rotational.ldt' }),
    );
    expect(lines).toEqual([]);
    expect(files.photometry.get('h-0')?.format).toBe('LM-63');
    expect(files.photometry.get('h-1')?.format).toBe('EULUMDAT');
  });

  it('take the text in the document before a file beside it', async () => {
    const text = readFileSync(new URL('synthetic/lambert-C-h0.ies', PHOTOMETRY), 'latin1');
    const { files, lines } = await read(withHeads({ file: 'a.ies', text }), notFound);
    expect(lines).toEqual([]);
    expect(files.photometry.get('h-0')?.distribution.candela[0]).toBe(1000);
  });

  it('take the lamp set that is asked for', async () => {
    const file = 'synthetic--two-lamp-sets.ldt';
    const { files } = await read(withHeads({ file }, { file, lampSet: 1 }));
    const peak = (name: string) => Math.max(...files.photometry.get(name)!.distribution.candela);
    expect(peak('h-1')).not.toBe(peak('h-0'));
    const { lines } = await read(withHeads({ file, lampSet: 7 }));
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/^error: heads\.h-0\.photometry\.file: found /);
  });

  it('say what is odd about a file that is used all the same', async () => {
    const { files, lines } = await read(withHeads({ file: 'synthetic--trailing-extra-value.ies' }));
    expect(files.photometry.size).toBe(1);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(
      /^warning: heads\.h-0\.photometry\.file: found "synthetic--trailing-extra-value\.ies": .*; expected a file without oddities; it is used all the same$/,
    );
  });

  it('are told with line, fault and mend when they cannot be used', async () => {
    const { lines } = await read(withHeads({ file: 'broken--b05-word-in-number.ies' }));
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(
      /^error: heads\.h-0\.photometry\.file: found .+ in line \d+ of "broken--b05-word-in-number\.ies"; expected .+\. .+\.$/,
    );
  });

  it('are told by every head and solid that lacks one, and the rest is read', async () => {
    const scene = {
      ...withHeads({ file: 'gone.ies' }, { file: 'lambert.ies' }),
      ...withMeshes('gone.glb', 'hut.glb'),
    };
    const mesh = await glb();
    const text = readFileSync(new URL('synthetic/lambert-C-h0.ies', PHOTOMETRY));
    const { files, lines } = await read(
      { ...scene, heads: withHeads({ file: 'gone.ies' }, { file: 'lambert.ies' }).heads! },
      async (name) => {
        if (name === 'hut.glb') return mesh;
        if (name === 'lambert.ies') return text;
        throw new Error('no such file');
      },
    );
    expect(lines).toEqual([
      'error: heads.h-0.photometry.file: found "gone.ies": no such file; expected a file that stands beside the scene',
      'error: solids[0].file (m-0): found "gone.glb": no such file; expected a file that stands beside the scene',
    ]);
    expect([...files.photometry.keys(), ...files.meshes.keys()]).toEqual(['h-1', 'hut.glb']);
  });

  it('are refused when they are too large, before they are looked into', async () => {
    const { lines } = await read(withMeshes('big.glb'), async () => new Uint8Array(MAX_FILE_BYTES + 1));
    expect(lines).toEqual([
      'error: solids[0].file (m-0): found "big.glb" of 50 MB; expected a file of at most 50 MB',
    ]);
  });

  it('are read once when several solids share a mesh', async () => {
    const mesh = await glb();
    const asked: string[] = [];
    const { files } = await read(withMeshes('hut.glb', 'hut.glb', 'hut.glb'), async (name) => {
      asked.push(name);
      return mesh;
    });
    expect(asked).toEqual(['hut.glb']);
    expect(files.meshes.size).toBe(1);
  });

  it('that are no mesh are told with the reason', async () => {
    const { lines } = await read(withMeshes('x.glb'), async () => new TextEncoder().encode('{"a": 1}'));
    expect(lines).toEqual([
      'error: solids[0].file (m-0): found "x.glb": it is not a glTF file; expected a self-contained glTF 2.0 file (.glb)',
    ]);
  });

  it('cannot drive a terminal through the messages about them', async () => {
    for (const content of [
      '\u001b[2J\u009b31m',
      '{"asset": {"version": "\\u001b[2J"}}',
      'TILT=\u001b[2J\n',
    ]) {
      const bytes = new TextEncoder().encode(content);
      for (const scene of [withMeshes('x.glb'), withHeads({ file: 'x.ies' })])
        for (const line of (await read(scene, async () => bytes)).lines) expect(line).not.toMatch(/\p{Cc}/u);
    }
  });
});
