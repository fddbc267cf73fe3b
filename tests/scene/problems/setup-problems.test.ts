import { describe, expect, it } from 'vitest';
import { linesOf, problemsOf } from '../../support/scenes.ts';

const changes = (patch: unknown) => ({ 'setups.0.changes': patch });

describe('setups that would not be a scene', () => {
  const rows: readonly (readonly [what: string, patch: unknown, line: string])[] = [
    [
      'unknown id',
      { keey: { on: false } },
      'setups[0].changes.keey (1a): found a change to "keey"; expected the id of a thing in this scene, or "haze", "site", "calibration"; did you mean "key"?',
    ],
    [
      'a value out of range',
      { key: { level: 2 } },
      'setups[0].changes.key.level (1a): found 2; expected at most 1 (2 % is 0.02)',
    ],
    [
      'an unknown field',
      { key: { lvel: 1 } },
      'setups[0].changes.key.lvel (1a): found an unknown field "lvel"; expected only id, name, head, position_m, aim_m, roll_deg, level, on, filters, stand, supply, phase; did you mean "level"?',
    ],
    [
      'a field that must stay',
      { key: { head: null } },
      'setups[0].changes.key.head (1a): found nothing; expected a name in quotes',
    ],
    [
      'a name that is not there',
      { key: { head: 'softt' } },
      'setups[0].changes.key.head (1a): found "softt"; expected the name of a head; did you mean "soft"?',
    ],
    [
      'a facing that is not there',
      { 'ada-rim': { facing: 'lamp:bak' } },
      'setups[0].changes.ada-rim.facing (1a): found "lamp:bak"; expected the name of a lamp after "lamp:"; did you mean "lamp:back"?',
    ],
    [
      'a new id',
      { key: { id: 'other' } },
      'setups[0].changes.key.id (1a): found a new id; expected the id left as it is (a setup cannot rename)',
    ],
    [
      'an impossible haze',
      { haze: { visibility_m: -3 } },
      'setups[0].changes.haze.visibility_m (1a): found -3; expected at least 0.1 m',
    ],
    [
      'a broken site',
      { site: { mains: { volts: '230' } } },
      'setups[0].changes.site.mains.volts (1a): found "230"; expected a finite number',
    ],
    [
      'a broken material',
      { asphalt: { reflectance: null } },
      'setups[0].changes.asphalt (1a): found {"name":"Asphalt","roughness":0.25}; expected either "reflectance" or "metal", one of the two',
    ],
    [
      'a shape that cannot be built',
      { boat: { wall_m: 3 } },
      'setups[0].changes.boat.wall_m (1a): found 3; expected above 0 and under 1.6 m, to leave room inside',
    ],
    [
      'a capsule too short',
      { buoy: { length_m: 0.1 } },
      'setups[0].changes.buoy.length_m (1a): found 0.1; expected at least twice the radius, 0.8 (the length is over all)',
    ],
    [
      'another setup',
      { '1b': { name: 'x' } },
      'setups[0].changes.1b (1a): found a change to "1b"; expected the id of a thing in this scene, or "haze", "site", "calibration"',
    ],
    [
      'a reading',
      { r1: { illuminance_lx: 1 } },
      'setups[0].changes.r1 (1a): found a change to "r1"; expected the id of a thing in this scene, or "haze", "site", "calibration"',
    ],
  ];
  it.each(rows)('%s', (_, patch, line) => expect(linesOf(changes(patch))).toEqual([line]));

  it('a material of the library, which is not the document’s to change', () => {
    expect(linesOf(changes({ 'grey-card': { reflectance: 0.2 } }))[0]).toMatch(
      /^setups\[0\]\.changes\.grey-card \(1a\): found a change to "grey-card"; expected the id of a thing/,
    );
  });

  it('a name that means two things', () => {
    const lines = linesOf({ 'marks.2.id': 'asphalt', 'setups.0.changes': { asphalt: { name: 'x' } } });
    expect(lines).toEqual([
      'setups[0].changes.asphalt (1a): found a change to "asphalt", which stands in marks and materials; ' +
        'expected a name that means one thing (rename the other)',
    ]);
  });

  it('reports every one, in every setup, by path and setup', () => {
    const problems = problemsOf({
      'setups.0.changes': { key: { level: 2, on: 'no' }, nobody: {} },
      'setups.1.changes': { haze: { albedo: 2 } },
    });
    expect(problems.map((p) => [p.path, p.thing])).toEqual([
      ['setups[0].changes.key.level', '1a'],
      ['setups[0].changes.key.on', '1a'],
      ['setups[0].changes.nobody', '1a'],
      ['setups[1].changes.haze.albedo', '1b'],
    ]);
  });

  it('accepts what leaves the thing valid: a field removed, a list replaced, a section made', () => {
    expect(
      linesOf({
        haze: undefined,
        'setups.0.changes': {
          key: { stand: null, filters: ['nd', 'half-blue'] },
          haze: { visibility_m: 100 },
          calibration: { flat: null },
          big: { photometry: { peak_cd: 90_000 } },
        },
      }),
    ).toEqual([]);
  });
});
