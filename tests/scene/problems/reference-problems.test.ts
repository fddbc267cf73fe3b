import { describe, expect, it } from 'vitest';
import { ABSENT, linesOf } from '../../support/scenes.ts';

describe('references to things that are not there', () => {
  const rows: readonly (readonly [path: string, value: string, line: string])[] = [
    [
      'materials.chart.reflectance',
      'light-skn',
      'materials.chart.reflectance: found "light-skn"; expected the name of a reflectance spectrum; did you mean "light-skin"?',
    ],
    [
      'solids.0.material',
      'ashpalt',
      'solids[0].material (quay): found "ashpalt"; expected the name of a material; did you mean "asphalt"?',
    ],
    [
      'solids.6.inside',
      'hul-gloss',
      'solids[6].inside (boat): found "hul-gloss"; expected the name of a material; did you mean "hull-gloss"?',
    ],
    [
      'solids.5.pane',
      'dirty-glas',
      'solids[5].pane (window): found "dirty-glas"; expected the name of a pane; did you mean "dirty-glass"?',
    ],
    [
      'solids.6.windows.0.pane',
      'nett',
      'solids[6].windows[0].pane (boat): found "nett"; expected the name of a pane; did you mean "net"?',
    ],
    [
      'figures.0.skin',
      'skin-midd',
      'figures[0].skin (ada): found "skin-midd"; expected the name of a material; did you mean "skin-mid"?',
    ],
    [
      'figures.0.upper',
      'wool-drak',
      'figures[0].upper (ada): found "wool-drak"; expected the name of a material; did you mean "wool-dark"?',
    ],
    [
      'figures.0.lower',
      'wol-dark',
      'figures[0].lower (ada): found "wol-dark"; expected the name of a material; did you mean "wool-dark"?',
    ],
    [
      'lamps.0.head',
      'bgi',
      'lamps[0].head (back): found "bgi"; expected the name of a head; did you mean "big"?',
    ],
    [
      'lamps.0.filters.1',
      'half-cbt',
      'lamps[0].filters[1] (back): found "half-cbt"; expected the name of a filter; did you mean "half-ctb"?',
    ],
    [
      'lamps.0.supply',
      'genny',
      'lamps[0].supply (back): found "genny"; expected the name of a supply; did you mean "gen"?',
    ],
    [
      'marks.1.facing',
      'lamp:bakc',
      'marks[1].facing (ada-rim): found "lamp:bakc"; expected the name of a lamp after "lamp:"; did you mean "lamp:back"?',
    ],
    [
      'paths.0.of',
      'waler',
      'paths[0].of (cross): found "waler"; expected the name of a figure, a lamp or a camera, or "walker"; did you mean "walker"?',
    ],
    [
      'readings.0.mark',
      'ada-fac',
      'readings[0].mark (r1): found "ada-fac"; expected the name of a mark; did you mean "ada-face"?',
    ],
    [
      'readings.0.lamps.1',
      'kex',
      'readings[0].lamps[1] (r1): found "kex"; expected the name of a lamp; did you mean "key"?',
    ],
    // One of a kind does not stand for another: a material is no pane, a head no lamp.
    ['solids.5.pane', 'asphalt', 'solids[5].pane (window): found "asphalt"; expected the name of a pane'],
    ['readings.0.lamps.1', 'quay', 'readings[0].lamps[1] (r1): found "quay"; expected the name of a lamp'],
    // A name that could not even be one is told once, as the name it should have been.
    [
      'solids.0.material',
      'Grey Card',
      'solids[0].material (quay): found "Grey Card"; expected the name of a material; did you mean "grey-card"?',
    ],
  ];
  it.each(rows)('%s = %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));

  it.each([
    ['solids.0.material', 'grey-card'],
    ['solids.5.pane', 'clear-glass'],
    ['lamps.0.filters.1', 'full-cto'],
    ['lamps.0.head', 'bulb-60'],
    ['paths.0.of', 'ada'],
    ['paths.0.of', 'back'],
    ['paths.0.of', 'walker'],
  ])('accepts %s = %s, which the library or the scene brings', (path, value) => {
    expect(linesOf({ [path]: value })).toEqual([]);
  });

  it('reports each of several', () => {
    const lines = linesOf({
      'lamps.0.head': 'nowhere-1',
      'lamps.1.head': 'nowhere-2',
      'lamps.2.head': 'nowhere-3',
    });
    expect(lines).toHaveLength(3);
  });

  it('reports what a deleted thing leaves behind', () => {
    expect(linesOf({ 'supplies.0': { id: 'other', kind: 'mains', volts: 230 } })).toEqual([
      'lamps[0].supply (back): found "gen"; expected the name of a supply',
    ]);
  });
});

describe('ids', () => {
  const twice = (place: string, id: string, first: string) =>
    `${place}: found "${id}" again (first at ${first}); expected an id of its own`;

  it.each([
    ['within a list', { 'lamps.5.id': 'strip' }, twice('lamps[5].id (strip)', 'strip', 'lamps[3]')],
    ['across lists', { 'marks.2.id': 'gen' }, twice('supplies[0].id (gen)', 'gen', 'marks[2]')],
    ['of a keep-out', { 'site.keepOut.0.id': 'quay' }, twice('site.keepOut[0].id', 'quay', 'solids[0]')],
    ['of a setup', { 'setups.1.id': 'cem' }, twice('setups[1].id (cem)', 'cem', 'figures[2]')],
  ])('are refused twice: %s', (_, changes, line) => expect(linesOf(changes)).toEqual([line]));

  it.each(['haze', 'site', 'calibration', 'walker'])(
    'are refused where they mean something else: %s',
    (id) => {
      expect(linesOf({ 'marks.2.id': id })).toEqual([
        `marks[2].id (${id}): found "${id}"; expected an id other than haze, site, calibration, walker`,
      ]);
    },
  );

  it('may be those of a material, because dictionaries have names of their own', () => {
    expect(linesOf({ 'marks.2.id': 'asphalt' })).toEqual([]);
  });

  it('that are missing or no text are told once', () => {
    expect(linesOf({ 'marks.2.id': ABSENT })).toHaveLength(1);
    expect(linesOf({ 'marks.2.id': 7 })).toHaveLength(1);
  });
});
