import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { saveScene } from '../../../src/scene/file/save-scene.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { FULL_SCENE_TEXT, fullScene, smallScene } from '../../support/scenes.ts';

const SCENES = new URL('../../../scenes/', import.meta.url);
const SHIPPED = readdirSync(SCENES).filter((name) => name.endsWith('.json'));

function openedText(text: string): SceneDocument {
  const { document, problems } = openScene(text);
  expect(problems).toEqual([]);
  return document!;
}

describe('saving', () => {
  it('writes the same text again for what it wrote', () => {
    for (const scene of [fullScene(), smallScene()]) {
      const text = saveScene(scene);
      expect(saveScene(openedText(text))).toBe(text);
      expect(openedText(text)).toEqual(scene);
    }
  });

  it('writes the same text whatever the order of the fields was', () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat(1e6)), (numbers) => {
        expect(saveScene(shuffled(fullScene(), numbers) as SceneDocument)).toBe(FULL_SCENE_TEXT);
      }),
      { seed: 20270304, numRuns: 30 },
    );
  });

  it('puts fields in the order of the schema, dictionaries and patches by name, lists as the author has them', () => {
    const scene = openedText(
      JSON.stringify({
        setups: [{ changes: { key: { on: false, level: 1 }, haze: { visibility_m: 9 } }, id: 's' }],
        lamps: [
          { aim_m: [0, 0, 0], position_m: [0, 2, 0], head: 'bulb-60', id: 'key' },
          { aim_m: [0, 0, 0], position_m: [0, 3, 0], head: 'bulb-60', id: 'fill' },
        ],
        materials: { zinc: { reflectance: 0.4 }, ash: { roughness: 0.5, reflectance: 0.1 } },
        haze: { albedo: 0.9, visibility_m: 100 },
        title: 'T',
        keyfall: 1,
      }),
    );
    expect(saveScene(scene)).toBe(
      [
        '{',
        '  "keyfall": 1,',
        '  "title": "T",',
        '  "materials": {"ash": {"reflectance": 0.1, "roughness": 0.5}, "zinc": {"reflectance": 0.4}},',
        '  "lamps": [',
        '    {"id": "key", "head": "bulb-60", "position_m": [0, 2, 0], "aim_m": [0, 0, 0]},',
        '    {"id": "fill", "head": "bulb-60", "position_m": [0, 3, 0], "aim_m": [0, 0, 0]}',
        '  ],',
        '  "haze": {"visibility_m": 100, "albedo": 0.9},',
        '  "setups": [{"id": "s", "changes": {"haze": {"visibility_m": 9}, "key": {"level": 1, "on": false}}}]',
        '}',
        '',
      ].join('\n'),
    );
  });

  it('keeps every number to its last digit', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e4, noNaN: true }), (size) => {
        const scene = smallScene();
        scene.solids = [
          { id: 'b', shape: 'box', position_m: [0, 0, -size], material: 'concrete', size_m: [size, 1, 1] },
        ];
        expect(openedText(saveScene(scene))).toEqual(scene);
      }),
      { seed: 7, numRuns: 100 },
    );
  });

  it('changes only the lines of what was changed', () => {
    const scene = fullScene();
    const before = saveScene(scene).split('\n');
    scene.cameras![0]!.iso = 1600;
    const after = saveScene(scene).split('\n');
    expect(after).toHaveLength(before.length);
    expect(after.filter((line, i) => line !== before[i])).toEqual(['      "iso": 1600,']);
  });
});

describe('scenes that are shipped', () => {
  it('are the six of the release', () => {
    expect(SHIPPED.sort()).toEqual([
      'apron-flank.json',
      'lamp-and-card.json',
      'loading-dock.json',
      'night-quay.json',
      'shopfront-rain.json',
      'test-room.json',
    ]);
  });

  it.each(SHIPPED)('%s is valid and stands as it would be saved', (name) => {
    const text = readFileSync(new URL(name, SCENES), 'utf8');
    expect(saveScene(openedText(text))).toBe(text);
  });
});

/** The same value with the fields of every object in another order. */
function shuffled(value: unknown, numbers: Iterator<number>): unknown {
  if (Array.isArray(value)) return value.map((entry) => shuffled(entry, numbers));
  if (typeof value !== 'object' || value === null) return value;
  const keyed = Object.entries(value).map(
    ([key, entry]) => [numbers.next().value as number, key, shuffled(entry, numbers)] as const,
  );
  return Object.fromEntries(keyed.sort(([a], [b]) => a - b).map(([, key, entry]) => [key, entry]));
}
