import { readdirSync, readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  isSceneLink,
  linkTo,
  MOST_LINK_CHARACTERS,
  sceneInLink,
} from '../../../src/editor/documents/scene-link.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { saveScene } from '../../../src/scene/file/save-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { fullScene, smallScene } from '../../support/scenes.ts';

const PAGE = 'https://example.org/plan/?x=1';

async function fragmentOf(document: SceneDocument): Promise<string> {
  const made = await linkTo(PAGE, document);
  if (!('link' in made)) throw new Error(made.fault);
  expect(made.link.startsWith(`${PAGE}#scene=`)).toBe(true);
  return new URL(made.link).hash;
}

const packed = (content: string | Uint8Array) => `#scene=${deflateRawSync(content).toString('base64url')}`;

describe('a scene in a link', () => {
  it.each(readdirSync('scenes').filter((name) => name.endsWith('.json')))(
    '%s comes out as it went in',
    async (name) => {
      const { document } = openScene(readFileSync(`scenes/${name}`, 'utf8'));
      const fragment = await fragmentOf(document!);
      expect(isSceneLink(fragment)).toBe(true);
      expect(fragment.length).toBeLessThan(MOST_LINK_CHARACTERS / 2);
      const inside = await sceneInLink(fragment);
      expect('text' in inside && saveScene(openScene(inside.text).document!)).toBe(saveScene(document!));
    },
  );

  it('keeps words of any script', async () => {
    const title = 'Nachtfähre 夜の埠頭 🚢';
    const inside = await sceneInLink(await fragmentOf({ ...smallScene(), title }));
    expect('text' in inside && JSON.parse(inside.text).title).toBe(title);
  });

  it('is not made where files beside it would stay behind', async () => {
    const solid = {
      id: 'rock',
      shape: 'mesh',
      position_m: [0, 0, 0],
      material: 'concrete',
      file: 'rock.glb',
    };
    const made = await linkTo(PAGE, { ...fullScene(), solids: [solid] } as SceneDocument);
    expect('fault' in made && made.fault).toMatch(/cannot carry meshes \(rock\.glb\)/);
  });

  it('is not made where it would be too long, and says how long', async () => {
    const notes = Array.from({ length: 40 }, (_, i) => `${Math.sin(i)} ${Math.cos(i * 7)} ${i ** 9}`).join(
      ' ',
    );
    const marks = Array.from({ length: 1500 }, (_, i) => ({
      id: `m-${(i * 7919) % 1500}-${i}`,
      position_m: [Math.sin(i) * 40, Math.cos(i * i), Math.sin(i * 3.3) * 9] as [number, number, number],
    }));
    const made = await linkTo(PAGE, { ...smallScene(), notes, marks });
    expect('fault' in made && made.fault).toMatch(/a link of \d+ \d{3} characters; more than 30 000/);
  });
});

describe('a fragment that is no scene of ours', () => {
  const faultOf = async (fragment: string) => {
    const inside = await sceneInLink(fragment);
    return 'fault' in inside ? inside.fault : null;
  };

  it('with other characters is refused', async () => {
    for (const carried of ['', '%3Cscript%3E', 'abc def', 'a+b/', 'ä'])
      expect(await faultOf(`#scene=${carried}`)).toMatch(/characters/);
  });

  it('cut short anywhere is refused', async () => {
    const fragment = await fragmentOf(smallScene());
    for (let length = '#scene='.length + 1; length < fragment.length - 1; length += 7)
      expect(await faultOf(fragment.slice(0, length)), String(length)).toMatch(/damaged or cut short/);
  });

  it('that is too long is refused before it is unpacked', async () => {
    expect(await faultOf(`#scene=${'A'.repeat(1_000_000)}`)).toMatch(/^1 000 000 characters/);
  });

  it('that unpacks to very much is left off soon', async () => {
    const bomb = packed(Buffer.alloc(20_000_000));
    expect(bomb.length).toBeLessThan(MOST_LINK_CHARACTERS);
    expect(await faultOf(bomb)).toBe('more than 4 MB, unpacked');
  });

  it('that is no text is refused', async () => {
    expect(await faultOf(packed(Uint8Array.of(0x7b, 0xff, 0xfe, 0x7d)))).toMatch(/damaged/);
  });

  it('of any kind is answered, never thrown at', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.string({ maxLength: 400 }),
        fc.uint8Array({ maxLength: 400 }),
        async (text, bytes) => {
          for (const fragment of [`#scene=${text}`, `#scene=${Buffer.from(bytes).toString('base64url')}`]) {
            const inside = await sceneInLink(fragment);
            expect('fault' in inside || typeof inside.text === 'string').toBe(true);
          }
        },
      ),
      { seed: 11, numRuns: 150 },
    );
  });
});
