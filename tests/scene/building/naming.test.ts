import { describe, expect, it } from 'vitest';
import { freshId, freshName, numberedName, takenIds } from '../../../src/scene/building/fresh-names.ts';
import { KEBAB_CASE } from '../../../src/scene/schema/primitives.ts';
import { fullScene } from '../../support/scenes.ts';
import { EMPTY } from './support.ts';

describe('new ids', () => {
  it('are kebab-case out of any name', () => {
    const none = new Set<string>();
    for (const [name, id] of [
      ['Lamp 3', 'lamp-3'],
      ['Édith’s  café!', 'edith-s-cafe'],
      ['灯', 'thing'],
      ['---', 'thing'],
      ['', 'thing'],
      ['<img src=x>', 'img-src-x'],
    ] as const)
      expect(freshId(none, name)).toBe(id);
    const long = freshId(none, 'x'.repeat(300));
    expect(long).toMatch(KEBAB_CASE);
    expect(long.length).toBeLessThanOrEqual(58);
  });

  it('are unlike every id, entry and reserved word', () => {
    const taken = takenIds(fullScene());
    for (const word of ['back', 'hull-gloss', 'haze', 'walker', 'site'])
      expect(freshId(taken, word)).toBe(`${word}-2`);
    expect(freshId(new Set(['a', 'a-2', 'a-3']), 'a')).toBe('a-4');
  });
});

describe('new names', () => {
  it('are numbered from 1, or from 2 after a bare word', () => {
    const scene = {
      ...EMPTY,
      marks: [{ id: 'm', name: 'Lamp 1', position_m: [0, 0, 0] as [number, number, number] }],
    };
    expect(numberedName(scene, 'Lamp')).toBe('Lamp 2');
    expect(freshName(EMPTY, 'Key')).toBe('Key');
    expect(freshName({ ...scene, marks: [{ ...scene.marks[0]!, name: 'Key' }] }, 'Key')).toBe('Key 2');
  });
});
