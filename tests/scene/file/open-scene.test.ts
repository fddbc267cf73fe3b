import { describe, expect, it } from 'vitest';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { FULL_SCENE_TEXT, fullScene } from '../../support/scenes.ts';

/** Place of each problem as `line path`. */
function places(text: string): string[] {
  return openScene(text).problems.map((p) => `${p.line} ${p.path}`);
}

describe('opening a scene from text', () => {
  it('gives the document that the text holds', () => {
    expect(openScene(FULL_SCENE_TEXT)).toEqual({ document: fullScene(), problems: [] });
  });

  it('takes a byte order mark and Windows line ends as they come', () => {
    const text = `\ufeff${FULL_SCENE_TEXT.replaceAll('\n', '\r\n')}`;
    expect(openScene(text)).toEqual({ document: fullScene(), problems: [] });
  });

  it('gives no document while there is an error', () => {
    expect(openScene('{"keyfall": 1, "title": 3}').document).toBeNull();
  });
});

describe('lines of problems', () => {
  const text = [
    '{', // 1
    '  "keyfall": 1,', // 2
    '  "title": 5,', // 3
    '  "materials": {', // 4
    '    "grey": { "reflectance": 3 },', // 5
    '    "Bad Name": { "reflectance": 0.3 }', // 6
    '  },', // 7
    '  "lamps": [', // 8
    '    { "id": "key", "head": "bulb-60",', // 9
    '      "position_m": [0, 1,', // 10
    '        "high"],', // 11
    '      "aim_m": [1, 1, 1], "levl": 1 },', // 12
    '    {', // 13
    '      "id": "fill", "position_m": [0, 0, 0], "aim_m": [1, 1, 1]', // 14
    '    },', // 15
    '    { "id": "key", "head": "blub-60", "position_m": [0, 0, 0], "aim_m": [1, 1, 1] }', // 16
    '  ],', // 17
    '  "setups": []', // 18
    '}', // 19
  ].join('\n');

  it('are those of the field, and of the thing where the field is missing', () => {
    expect(places(text)).toEqual([
      '3 title',
      '5 materials.grey.reflectance',
      '6 materials."Bad Name"',
      '11 lamps[0].position_m[2]',
      '12 lamps[0].levl',
      '13 lamps[1].head',
      '16 lamps[2].id',
      '16 lamps[2].head',
    ]);
  });

  it('are the same with Windows line ends and a byte order mark', () => {
    expect(places(`\ufeff${text.replaceAll('\n', '\r\n')}`)).toEqual(places(text));
  });

  it('are those of the change, for setups', () => {
    const scene = [
      '{ "keyfall": 1, "title": "",',
      '  "haze": { "visibility_m": 3 },',
      '  "setups": [{ "id": "a", "changes": {',
      '    "haze": {',
      '      "albedo": 4 },',
      '    "nobody": {} } }] }',
    ].join('\n');
    expect(places(scene)).toEqual(['5 setups[0].changes.haze.albedo', '6 setups[0].changes.nobody']);
  });

  it('is the first line, when the whole is wrong', () => {
    expect(places('[]')).toEqual(['1 (document)']);
    expect(places('{"keyfall": 9}')).toEqual(['1 keyfall']);
  });
});
