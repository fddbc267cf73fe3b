import { describe, expect, it } from 'vitest';
import { openRaw } from '../../../src/scene/file/open-scene.ts';
import { ABSENT, edited, fullScene, linesOf, problemsOf } from '../../support/scenes.ts';

/** path of the edit in the full scene, the value put there, and the whole line that must come of it */
type Row = readonly [path: string, value: unknown, line: string];

describe('unknown fields, at every level', () => {
  const rows: readonly [path: string, place: string, nearest: string | undefined][] = [
    ['lampz', 'lampz', 'lamps'],
    ['site.skye', 'site.skye', 'sky'],
    ['site.mains.volt', 'site.mains.volt', 'volts'],
    ['site.sky.illuminance', 'site.sky.illuminance', 'illuminance_lx'],
    ['site.place.latitude', 'site.place.latitude', 'latitude_deg'],
    ['site.keepOut.0.outline', 'site.keepOut[0].outline', 'outline_m'],
    ['calibration.domes', 'calibration.domes', 'dome'],
    ['materials.asphalt.reflectence', 'materials.asphalt.reflectence', 'reflectance'],
    ['panes.net.scatter', 'panes.net.scatter', 'scattered'],
    ['filters.nd.stop', 'filters.nd.stop', 'stops'],
    ['solids.0.materal', 'solids[0].materal (quay)', 'material'],
    ['solids.4.openings.0.width', 'solids[4].openings[0].width (wall)', 'width_m'],
    ['solids.6.windows.0.panes', 'solids[6].windows[0].panes (boat)', 'pane'],
    ['solids.6.doors.0.opened', 'solids[6].doors[0].opened (boat)', 'open'],
    ['figures.0.height', 'figures[0].height (ada)', 'height_m'],
    ['heads.big.mass', 'heads.big.mass', 'mass_kg'],
    ['heads.big.photometry.beam', 'heads.big.photometry.beam', 'beam_deg'],
    ['heads.big.face.diameter', 'heads.big.face.diameter', 'diameter_m'],
    ['heads.big.spectrum.cct', 'heads.big.spectrum.cct', 'cct_K'],
    ['heads.big.electrical.input_w2', 'heads.big.electrical.input_w2', 'input_W'],
    ['lamps.0.levl', 'lamps[0].levl (back)', 'level'],
    ['lamps.0.stand.maxheight', 'lamps[0].stand.maxheight (back)', 'maxHeight_m'],
    ['marks.0.fasing', 'marks[0].fasing (ada-face)', 'facing'],
    ['cameras.0.fnumber', 'cameras[0].fnumber (a)', 'fNumber'],
    ['haze.visibility', 'haze.visibility', 'visibility_m'],
    ['supplies.0.breaker', 'supplies[0].breaker (gen)', 'breaker_A'],
    ['supplies.0.cable.length', 'supplies[0].cable.length (gen)', 'length_m'],
    ['paths.0.point', 'paths[0].point (cross)', 'points'],
    ['paths.0.points.0.ts', 'paths[0].points[0].ts (cross)', 't_s'],
    ['setups.0.change', 'setups[0].change (1a)', 'changes'],
    ['readings.0.illuminance', 'readings[0].illuminance (r1)', 'illuminance_lx'],
    ['lamps.0.zzzzzzzzzzzz', 'lamps[0].zzzzzzzzzzzz (back)', undefined],
  ];

  it.each(rows)('%s', (path, place, nearest) => {
    const lines = linesOf({ [path]: 1 });
    const field = path.split('.').at(-1);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(`${place}: found an unknown field "${field}"; expected only `);
    expect(lines[0]?.split('; did you mean ')[1]).toBe(nearest && `"${nearest}"?`);
  });

  it('lists only the fields of the shape that is meant', () => {
    expect(linesOf({ 'solids.1.size': 1 })).toEqual([
      'solids[1].size (post): found an unknown field "size"; ' +
        'expected only id, name, shape, position_m, rotation_deg, material, radius_m, height_m',
    ]);
  });
});

describe('wrong types', () => {
  const rows: readonly Row[] = [
    ['title', 5, 'title: found 5; expected text in quotes'],
    ['title', ABSENT, 'title: found nothing; expected text in quotes'],
    ['site.mains.volts', '230', 'site.mains.volts: found "230"; expected a finite number'],
    ['lamps.0.level', true, 'lamps[0].level (back): found true; expected a finite number'],
    [
      'lamps.0.level',
      Number.POSITIVE_INFINITY,
      'lamps[0].level (back): found Infinity; expected a finite number',
    ],
    ['lamps.0.level', Number.NaN, 'lamps[0].level (back): found NaN; expected a finite number'],
    ['lamps.0.on', 'yes', 'lamps[0].on (back): found "yes"; expected true or false'],
    ['lamps.0.filters', 'nd', 'lamps[0].filters (back): found "nd"; expected a list […]'],
    ['lamps.3', 'key', 'lamps[3]: found "key"; expected an object {…}'],
    ['lamps.3', null, 'lamps[3]: found null; expected an object {…}'],
    ['supplies.0.cable', 50, 'supplies[0].cable (gen): found 50; expected an object {…}'],
    ['haze', [], 'haze: found []; expected an object {…}'],
    ['solids.0.size_m', 3, 'solids[0].size_m (quay): found 3; expected a list of 3 numbers […]'],
    ['solids.0.size_m', [1, 2], 'solids[0].size_m (quay): found [1,2]; expected 3 numbers'],
    ['solids.0.size_m', [1, 2, 3, 4], 'solids[0].size_m (quay): found [1,2,3,4]; expected 3 numbers'],
    ['solids.0.size_m', [1, '2', 3], 'solids[0].size_m[1] (quay): found "2"; expected a finite number in m'],
    [
      'solids.0.size_m',
      [1, null, 3],
      'solids[0].size_m[1] (quay): found null; expected a finite number in m',
    ],
    ['cameras.0.sensor_mm', 36, 'cameras[0].sensor_mm (a): found 36; expected a list of 2 numbers […]'],
    [
      'solids.6.windows.0.count',
      2.5,
      'solids[6].windows[0].count (boat): found 2.5; expected a whole number',
    ],
    ['setups.0.changes.key', 5, 'setups[0].changes.key (1a): found 5; expected an object {…}'],
    [
      'site.place.start',
      'tonight',
      'site.place.start: found "tonight"; expected a date and time with its offset, such as "2027-03-04T20:00:00Z"',
    ],
    [
      'site.place.start',
      '2027-03-04T20:00:00',
      'site.place.start: found "2027-03-04T20:00:00"; ' +
        'expected a date and time with its offset, such as "2027-03-04T20:00:00Z"',
    ],
    ['site.mains.hertz', '50', 'site.mains.hertz: found "50"; expected 50 or 60'],
    ['supplies.0.phases', 2, 'supplies[0].phases (gen): found 2; expected 1 or 3'],
  ];
  it.each(rows)('%s = %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));
});

describe('missing fields', () => {
  const rows: readonly (readonly [path: string, line: string])[] = [
    ['solids.0.position_m', 'solids[0].position_m (quay): found nothing; expected a list of 3 numbers […]'],
    ['solids.0.material', 'solids[0].material (quay): found nothing; expected a name in quotes'],
    ['lamps.0.head', 'lamps[0].head (back): found nothing; expected a name in quotes'],
    ['lamps.0.aim_m', 'lamps[0].aim_m (back): found nothing; expected a list of 3 numbers […]'],
    ['heads.big.photometry', 'heads.big.photometry: found nothing; expected an object {…}'],
    [
      'heads.big.photometry.peak_cd',
      'heads.big.photometry.peak_cd: found nothing; expected a finite number in cd',
    ],
    ['cameras.0.iso', 'cameras[0].iso (a): found nothing; expected a finite number'],
    ['cameras.0.shutter_s', 'cameras[0].shutter_s (a): found nothing; expected a finite number in s'],
    [
      'supplies.0.cable.area_mm2',
      'supplies[0].cable.area_mm2 (gen): found nothing; expected a finite number in mm²',
    ],
    ['setups.0.changes', 'setups[0].changes (1a): found nothing; expected an object {…}'],
    ['paths.0.points', 'paths[0].points (cross): found nothing; expected a list […]'],
  ];
  it.each(rows)('%s', (path, line) => expect(linesOf({ [path]: ABSENT })).toEqual([line]));

  it('says of a thing without an id where it stands', () => {
    expect(linesOf({ 'marks.2.id': ABSENT })).toEqual([
      'marks[2].id: found nothing; expected a name in quotes',
    ]);
  });
});

describe('numbers out of range', () => {
  const rows: readonly Row[] = [
    ['lamps.0.level', 80, 'lamps[0].level (back): found 80; expected at most 1 (80 % is 0.8)'],
    ['lamps.0.level', -0.1, 'lamps[0].level (back): found -0.1; expected at least 0'],
    [
      'materials.asphalt.reflectance',
      18,
      'materials.asphalt.reflectance: found 18; expected at most 1 (18 % is 0.18)',
    ],
    ['site.sky.illuminance_lx', -1, 'site.sky.illuminance_lx: found -1; expected at least 0 lx'],
    ['site.place.latitude_deg', 91, 'site.place.latitude_deg: found 91; expected at most 90°'],
    ['calibration.flat', 25, 'calibration.flat: found 25; expected at least 100'],
    ['haze.visibility_m', 0, 'haze.visibility_m: found 0; expected at least 0.1 m'],
    ['haze.anisotropy', 1, 'haze.anisotropy: found 1; expected at most 0.99'],
    ['figures.0.height_m', 17, 'figures[0].height_m (ada): found 17; expected at most 3 m'],
    ['solids.0.size_m', [1, 0, 1], 'solids[0].size_m[1] (quay): found 0; expected at least 0.001 m'],
    [
      'lamps.0.position_m',
      [0, 0, 1e5],
      'lamps[0].position_m[2] (back): found 100000; expected at most 10000 m',
    ],
    ['panes.dirty-glass.spread_deg', 0, 'panes.dirty-glass.spread_deg: found 0; expected more than 0°'],
    ['heads.big.photometry.beam_deg', 0, 'heads.big.photometry.beam_deg: found 0; expected more than 0°'],
    [
      'heads.big.photometry.field_deg',
      360,
      'heads.big.photometry.field_deg: found 360; expected less than 360°',
    ],
    ['heads.big.spectrum.cct_K', 56, 'heads.big.spectrum.cct_K: found 56; expected at least 1000 K'],
    ['heads.tube.spectrum.cct_K', 3200, 'heads.tube.spectrum.cct_K: found 3200; expected at least 4000 K'],
    [
      'heads.big.electrical.powerFactor',
      0,
      'heads.big.electrical.powerFactor: found 0; expected more than 0',
    ],
    ['heads.sets.photometry.lampSet', -1, 'heads.sets.photometry.lampSet: found -1; expected at least 0'],
    ['cameras.0.fNumber', 0, 'cameras[0].fNumber (a): found 0; expected at least 0.5'],
    ['cameras.0.shutter_s', 5000, 'cameras[0].shutter_s (a): found 5000; expected at most 3600 s'],
    ['readings.0.lamps', [], 'readings[0].lamps (r1): found []; expected at least 1 entry'],
    [
      'paths.0.points',
      [{ t_s: 0, position_m: [0, 0, 0] }],
      'paths[0].points (cross): found [{"t_s":0,"position_m":[0,0,0]}]; expected at least 2 entries',
    ],
    [
      'lamps.0.filters',
      Array(13).fill('nd'),
      'lamps[0].filters (back): found a list of 13; expected at most 12 entries',
    ],
    ['title', 'x'.repeat(201), `title: found "${'x'.repeat(56)}…"; expected at most 200 characters`],
  ];
  it.each(rows)('%s = %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));
});

describe('words out of a list', () => {
  const rows: readonly Row[] = [
    [
      'solids.0.shape',
      'bx',
      'solids[0].shape (quay): found "bx"; expected one of box, cylinder, sphere, capsule, panel, pane, vehicle, mesh; did you mean "box"?',
    ],
    [
      'solids.0.shape',
      3,
      'solids[0].shape (quay): found 3; expected one of box, cylinder, sphere, capsule, panel, pane, vehicle, mesh',
    ],
    [
      'solids.0.shape',
      ABSENT,
      'solids[0].shape (quay): found nothing; expected one of box, cylinder, sphere, capsule, panel, pane, vehicle, mesh',
    ],
    [
      'filters.nd.kind',
      'nuetral',
      'filters.nd.kind: found "nuetral"; expected one of conversion, green, colour, diffusion, neutral, net, table; did you mean "neutral"?',
    ],
    [
      'heads.big.photometry.kind',
      'beem',
      'heads.big.photometry.kind: found "beem"; expected one of beam, metered, lumens, diffuse, file; did you mean "beam"?',
    ],
    [
      'heads.big.face.shape',
      'disk',
      'heads.big.face.shape: found "disk"; expected one of disc, rectangle, octagon; did you mean "disc"?',
    ],
    [
      'heads.big.spectrum.kind',
      'tungsten',
      'heads.big.spectrum.kind: found "tungsten"; expected one of planck, daylight, discharge, led, table',
    ],
    [
      'heads.big.electrical.kind',
      'ledd',
      'heads.big.electrical.kind: found "ledd"; expected one of tungsten, discharge, fluorescent, led; did you mean "led"?',
    ],
    [
      'materials.bare-iron.metal',
      'aluminum',
      'materials.bare-iron.metal: found "aluminum"; expected one of aluminium, chromium, iron, nickel, silver, stainless-steel; did you mean "aluminium"?',
    ],
    [
      'figures.0.pose',
      'siting',
      'figures[0].pose (ada): found "siting"; expected one of standing, sitting, leaning, walking; did you mean "sitting"?',
    ],
    [
      'solids.6.windows.0.side',
      'rihgt',
      'solids[6].windows[0].side (boat): found "rihgt"; expected one of right, left, front, back; did you mean "right"?',
    ],
    ['marks.0.receptor', 'ball', 'marks[0].receptor (ada-face): found "ball"; expected one of dome, flat'],
    [
      'supplies.0.kind',
      'generater',
      'supplies[0].kind (gen): found "generater"; expected one of mains, generator, battery; did you mean "generator"?',
    ],
    [
      'marks.0.facing',
      'cam',
      'marks[0].facing (ada-face): found "cam"; expected "camera", "lamp:<id of a lamp>" or a direction [x, y, z]',
    ],
    [
      'marks.0.facing',
      {},
      'marks[0].facing (ada-face): found an empty object; expected "camera", "lamp:<id of a lamp>" or a direction [x, y, z] that is not zero',
    ],
    [
      'materials.asphalt.reflectance',
      {},
      'materials.asphalt.reflectance: found an empty object; expected a number 0..1, three numbers 0..1 [red, green, blue], or the name of a reflectance spectrum',
    ],
  ];
  it.each(rows)('%s = %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));
});

describe('figures that do not go together', () => {
  const rows: readonly Row[] = [
    [
      'heads.big.photometry.field_deg',
      40,
      'heads.big.photometry.field_deg: found 40; expected a field angle (10 % edge) wider than the beam angle (50 % edge)',
    ],
    [
      'materials.asphalt',
      {},
      'materials.asphalt: found an empty object; expected either "reflectance" or "metal", one of the two',
    ],
    [
      'materials.asphalt',
      { reflectance: 0.1, metal: 'iron' },
      'materials.asphalt: found {"reflectance":0.1,"metal":"iron"}; expected either "reflectance" or "metal", one of the two',
    ],
    [
      'panes.net',
      { direct: 0.8, scattered: 0.5 },
      'panes.net: found {"direct":0.8,"scattered":0.5}; expected "direct" and "scattered" together no more than 1 (a pane cannot add light)',
    ],
    [
      'lamps.0.aim_m',
      [25, 3, 1],
      'lamps[0].aim_m (back): found [25,3,1]; expected an aim point away from the lamp itself',
    ],
    [
      'cameras.0.look_m',
      [-8, 1.5, 3],
      'cameras[0].look_m (a): found [-8,1.5,3]; expected a look point away from the camera itself',
    ],
    [
      'marks.2.facing',
      [0, 0, 0],
      'marks[2].facing (ground): found [0,0,0]; expected a direction that is not zero',
    ],
    [
      'filters.measured.transmittance',
      [0.1, 0.8],
      'filters.measured.transmittance: found [0.1,0.8]; expected as many transmittances as wavelengths',
    ],
    [
      'filters.measured.wavelength_nm',
      [400, 640, 520],
      'filters.measured.wavelength_nm: found [400,640,520]; expected wavelengths in rising order',
    ],
    [
      'paths.1.points.1.t_s',
      1,
      'paths[1].points (push-in): found [{"t_s":1,"position_m":[-8,1.5,3]},{"t_s":1,"position_m":…; expected times in rising order',
    ],
  ];
  it.each(rows)('%s = %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));
});

describe('names', () => {
  const KEBAB = 'expected a name in small letters, digits and single hyphens, such as "key-1"';
  const PLAIN_FILE = 'expected the plain name of a file that stands beside the scene, without folders';
  const rows: readonly Row[] = [
    ['marks.2.id', 'The Ground', `marks[2].id: found "The Ground"; ${KEBAB}; did you mean "the-ground"?`],
    [
      'marks.2.id',
      'the--ground',
      `marks[2].id (the--ground): found "the--ground"; ${KEBAB}; did you mean "the-ground"?`,
    ],
    ['marks.2.id', '', `marks[2].id: found ""; ${KEBAB}`],
    ['marks.2.id', 'é', `marks[2].id: found "é"; ${KEBAB}`],
    [
      'materials.Grey Card',
      { reflectance: 0.18 },
      `materials."Grey Card": found the name "Grey Card"; ${KEBAB}; did you mean "grey-card"?`,
    ],
    [
      'setups.0.changes.Key 1',
      { on: false },
      `setups[0].changes."Key 1" (1a): found the name "Key 1"; ${KEBAB}; did you mean "key-1"?`,
    ],
    [
      'figures.0.name',
      'two\nlines',
      'figures[0].name (ada): found "two\\nlines"; expected text without line breaks or control characters',
    ],
    ['notes', '\u001b[2J', 'notes: found "\\u001b[2J"; expected text without control characters'],
    ['solids.7.file', '../hut.glb', `solids[7].file (hut): found "../hut.glb"; ${PLAIN_FILE}`],
    [
      'heads.filed.photometry.file',
      '/etc/passwd',
      `heads.filed.photometry.file: found "/etc/passwd"; ${PLAIN_FILE}`,
    ],
  ];
  it.each(rows)('%s = %j', (path, value, line) => expect(linesOf({ [path]: value })).toEqual([line]));
});

describe('all problems at once', () => {
  it('reports every one of several, each at its own path', () => {
    const changes = {
      title: ABSENT,
      'lamps.0.level': 2,
      'lamps.1.head': 'sotf',
      'marks.0.recepter': 'flat',
      'cameras.0.iso': '800',
      'panes.net.direct': -1,
      'site.mains.hertz': 400,
    };
    expect(problemsOf(changes).map((p) => p.path)).toEqual([
      'title',
      'site.mains.hertz',
      'panes.net.direct',
      'lamps[0].level',
      'marks[0].recepter',
      'cameras[0].iso',
      'lamps[1].head',
    ]);
  });

  it('carries the id of the thing, the path step by step, and severity', () => {
    const [problem] = problemsOf({ 'solids.6.windows.0.pane': 'dirty-glas' });
    expect(problem).toEqual({
      severity: 'error',
      path: 'solids[6].windows[0].pane',
      at: ['solids', 6, 'windows', 0, 'pane'],
      thing: 'boat',
      found: '"dirty-glas"',
      expected: 'the name of a pane',
      nearest: 'dirty-glass',
    });
  });

  it('stops at 200', () => {
    const spoiled = edited(fullScene(), { marks: Array.from({ length: 1500 }, () => ({})) });
    expect(openRaw(spoiled).problems).toHaveLength(200);
  });
});
