import { describe, expect, it } from 'vitest';
import { applyCommand, applyCommands } from '../../../src/scene/commands/apply-command.ts';
import type { Command } from '../../../src/scene/commands/command.ts';
import { LIBRARY } from '../../../src/scene/library/library.ts';
import { problemText } from '../../../src/scene/problems/problem.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { edited, frozen, fullScene } from '../../support/scenes.ts';

function done(command: Command, scene: SceneDocument = fullScene()): SceneDocument {
  const applied = applyCommand(frozen(scene), command);
  expect(applied.problems?.map((p) => problemText(p))).toBeUndefined();
  return applied.document!;
}

function refusal(command: Command, scene: SceneDocument = fullScene()): string[] {
  const applied = applyCommand(frozen(scene), command);
  expect(applied.document).toBeUndefined();
  return applied.problems!.map((p) => problemText(p));
}

const mark = { id: 'new', position_m: [0, 1, 2] };

describe('add', () => {
  it('puts a thing at the end, or where it is told', () => {
    expect(done({ do: 'add', to: 'marks', thing: mark }).marks!.map((m) => m.id)).toEqual([
      'ada-face',
      'ada-rim',
      'ground',
      'new',
    ]);
    expect(done({ do: 'add', to: 'marks', thing: mark, index: 1 }).marks!.map((m) => m.id)).toEqual([
      'ada-face',
      'new',
      'ada-rim',
      'ground',
    ]);
  });

  it('starts a list that was not there', () => {
    expect(done({ do: 'add', to: 'marks', thing: mark }, { keyfall: 1, title: '' }).marks).toEqual([mark]);
  });

  it('refuses what is not a thing of the kind, and an id that is taken', () => {
    expect(refusal({ do: 'add', to: 'lamps', thing: mark })).toEqual([
      'lamps[6].head (new): found nothing; expected a name in quotes',
      'lamps[6].aim_m (new): found nothing; expected a list of 3 numbers […]',
    ]);
    expect(refusal({ do: 'add', to: 'marks', thing: { ...mark, id: 'back' } })).toEqual([
      'marks[3].id (back): found "back" again (first at lamps[0]); expected an id of its own',
    ]);
  });

  it('refuses an id that would make a setup’s change ambiguous', () => {
    expect(refusal({ do: 'add', to: 'marks', thing: { ...mark, id: 'hull-gloss' } })).toEqual([
      'setups[0].changes.hull-gloss (1a): found a change to "hull-gloss", which stands in marks and materials; ' +
        'expected a name that means one thing (rename the other)',
    ]);
  });
});

describe('change', () => {
  it('merges a patch into a thing and shares the rest', () => {
    const scene = fullScene();
    const changed = done({ do: 'change', id: 'key', patch: { level: 0.5, stand: null } }, scene);
    expect(changed.lamps![1]).toEqual({
      id: 'key',
      head: 'soft',
      position_m: [-6, 2, 4],
      aim_m: [-2, 1.5, 1],
      supply: 'wall-socket',
      level: 0.5,
    });
    expect(changed.lamps![0]).toBe(scene.lamps![0]);
    expect(changed.solids).toBe(scene.solids);
  });

  it('refuses a patch that spoils the thing, and an id that is not there', () => {
    expect(refusal({ do: 'change', id: 'key', patch: { level: 2 } })).toEqual([
      'lamps[1].level (key): found 2; expected at most 1 (2 % is 0.02)',
    ]);
    expect(refusal({ do: 'change', id: 'kex', patch: {} })).toEqual([
      '(document): found "kex"; expected the id of a thing in this scene',
    ]);
  });

  it('refuses a base under which a setup would not be valid any more', () => {
    // Setup 1b hangs windows up to 2.1 m into the boat.
    expect(
      refusal({ do: 'change', id: 'boat', patch: { size_m: [24, 2, 3.2], windows: null, doors: null } }),
    ).toEqual([
      'setups[1].changes.boat.windows[0].head_m (1b): found 2.1; expected 1.6 m or lower, under the roof and its rounded edge',
    ]);
  });
});

describe('change of a lamp that readings were taken with', () => {
  /** r1: back and key alight, what back was remembered in full, of key the level. r2: back alone, nothing remembered. */
  const taken = (scene: SceneDocument) => scene.readings!.map((r) => r.taken);
  const before = taken(fullScene());

  it('is remembered by those that do not remember it yet', () => {
    const scene = done({ do: 'change', id: 'back', patch: { position_m: [30, 4, 1], level: 0.2 } });
    expect(taken(scene)).toEqual([before[0], [{ lamp: 'back', position_m: [25, 3, 1], level: 0.8 }]]);
  });

  it('adds to what is remembered already, and lets that be', () => {
    const scene = done({ do: 'change', id: 'key', patch: { aim_m: [-2, 2, 1], level: 0.1 } });
    expect(taken(scene)).toEqual([
      [before[0]![0], { lamp: 'key', aim_m: [-2, 1.5, 1], level: 0.6 }],
      undefined,
    ]);
  });

  it('writes out what the lamp did not state', () => {
    const bare = edited(fullScene(), {
      'readings.1': { id: 'r2', mark: 'ground', lamps: ['strip'], illuminance_lx: 5 },
    }) as SceneDocument;
    const patch = { level: 0.5, roll_deg: 10, filters: ['nd'] };
    expect(taken(done({ do: 'change', id: 'strip', patch }, bare))[1]).toEqual([
      { lamp: 'strip', roll_deg: 0, level: 1, filters: [] },
    ]);
    // and back again, by leaving the field out
    const dimmed = edited(bare, { 'lamps.3.level': 0.5 }) as SceneDocument;
    expect(taken(done({ do: 'change', id: 'strip', patch: { level: null } }, dimmed))[1]).toEqual([
      { lamp: 'strip', level: 0.5 },
    ]);
  });

  it('of a drag keeps only where it began, and undo gives everything back', () => {
    const scene = frozen(fullScene());
    let dragged = scene;
    const steps = [26, 27, 28, 25.5].map((x) => {
      dragged = done({ do: 'change', id: 'back', patch: { position_m: [x, 3, 1] } }, dragged);
      return dragged;
    });
    for (const step of steps)
      expect(step.readings![1]!.taken).toEqual([{ lamp: 'back', position_m: [25, 3, 1] }]);
    // One object for the whole drag: what rests on the readings is not worked out again at each step.
    for (const step of steps) expect(step.readings).toBe(steps[0]!.readings);
    expect(scene).toEqual(fullScene());
  });

  it('is nothing to readings where it does not change their light, or is no change', () => {
    const scene = frozen(fullScene());
    for (const patch of [
      { on: false },
      { name: 'Moon' },
      { stand: { maxHeight_m: 5 } },
      { head: 'soft' },
      { level: 0.8, position_m: [25, 3, 1] },
      { filters: ['half-blue', 'nd', 'scrim', 'measured', 'half-ctb'] },
    ])
      expect(done({ do: 'change', id: 'back', patch }, scene).readings).toBe(scene.readings);
    expect(done({ do: 'change', id: 'practical', patch: { level: 0.5 } }, scene).readings).toBe(
      scene.readings,
    );
  });

  it('refused, remembers nothing', () => {
    expect(refusal({ do: 'change', id: 'back', patch: { position_m: null } })).toHaveLength(1);
    expect(refusal({ do: 'change', id: 'back', patch: { id: 'moon', level: 0.1 } }).length).toBeGreaterThan(
      0,
    );
  });
});

describe('move', () => {
  it('puts a thing at another place of its list', () => {
    const ids = (index: number) => done({ do: 'move', id: 'ada-face', index }).marks!.map((m) => m.id);
    expect(ids(0)).toEqual(['ada-face', 'ada-rim', 'ground']);
    expect(ids(1)).toEqual(['ada-rim', 'ada-face', 'ground']);
    expect(ids(2)).toEqual(['ada-rim', 'ground', 'ada-face']);
  });
});

describe('rename', () => {
  const renamed = (id: string, to: string, expected: Record<string, unknown>) =>
    expect(done({ do: 'rename', id, to })).toEqual(edited(fullScene(), expected));

  it('a lamp: marks that face it, readings, setups follow', () => {
    renamed('back', 'moon', {
      'lamps.0.id': 'moon',
      'marks.1.facing': 'lamp:moon',
      'readings.0.lamps.0': 'moon',
      'readings.0.taken.0.lamp': 'moon',
      'readings.1.lamps.0': 'moon',
      'setups.1.changes': {
        moon: fullScene().setups![1]!.changes.back,
        'ada-face': { facing: 'lamp:key' },
        boat: fullScene().setups![1]!.changes.boat,
      },
    });
  });

  it('a lamp that only a setup’s patch names', () => {
    renamed('key', 'main', {
      'lamps.1.id': 'main',
      'readings.0.lamps.1': 'main',
      'readings.0.taken.1.lamp': 'main',
      'setups.0.changes': Object.fromEntries(
        Object.entries(fullScene().setups![0]!.changes).map(([id, patch]) => [
          id === 'key' ? 'main' : id,
          patch,
        ]),
      ),
      'setups.1.changes.ada-face.facing': 'lamp:main',
    });
  });

  it('a mark', () => {
    renamed('ada-rim', 'rim', { 'marks.1.id': 'rim', 'readings.1.mark': 'rim' });
  });

  it('a supply', () => {
    renamed('wall-socket', 'mains', {
      'supplies.1.id': 'mains',
      'lamps.1.supply': 'mains',
      'setups.1.changes.back.supply': 'mains',
    });
  });

  it('a camera that moves along a path', () => {
    renamed('a', 'cam-a', { 'cameras.0.id': 'cam-a', 'paths.1.of': 'cam-a' });
  });

  it.each([
    ['quay', 'solids.0'],
    ['cem', 'figures.2'],
    ['cross', 'paths.0'],
    ['1a', 'setups.0'],
    ['r1', 'readings.0'],
  ])('%s, which nothing names', (id, path) => renamed(id, 'other', { [`${path}.id`]: 'other' }));

  it('refuses a name that is taken, reserved or no name', () => {
    expect(refusal({ do: 'rename', id: 'key', to: 'quay' })[0]).toMatch(/found "quay" again/);
    expect(refusal({ do: 'rename', id: 'ben', to: 'walker' })[0]).toMatch(/expected an id other than/);
    expect(refusal({ do: 'rename', id: 'ben', to: 'Ben B.' })[0]).toMatch(/did you mean "ben-b"/);
    expect(refusal({ do: 'rename', id: 'nobody', to: 'x' })[0]).toMatch(/expected the id of a thing/);
  });

  it('refuses to let two changes of a setup run together', () => {
    expect(refusal({ do: 'rename', id: 'key', to: 'hull-gloss' })[0]).toMatch(
      /stands in lamps and materials/,
    );
  });

  it('leaves the material of the same name alone', () => {
    const scene = edited(fullScene(), { 'marks.2.id': 'asphalt' }) as SceneDocument;
    const changed = done({ do: 'rename', id: 'asphalt', to: 'ground' }, scene);
    expect(changed).toEqual(fullScene());
  });
});

describe('remove', () => {
  it('a lamp: marks face the camera, its readings go, setups forget it', () => {
    const scene = done({ do: 'remove', id: 'back' });
    expect(scene.lamps!.map((l) => l.id)).toEqual(['key', 'practical', 'strip', 'from-file', 'from-sets']);
    expect(scene.marks![1]).toEqual({ id: 'ada-rim', position_m: [-1.7, 1.55, 1], receptor: 'flat' });
    // Both readings were taken with it alight; what is left of the lamps would not have given them.
    expect(scene.readings).toEqual([]);
    expect(done({ do: 'remove', id: 'key' }).readings!.map((r) => r.id)).toEqual(['r2']);
    expect(Object.keys(scene.setups![1]!.changes)).toEqual(['ada-face', 'boat']);
  });

  it('a mark: its readings go with it', () => {
    expect(done({ do: 'remove', id: 'ada-face' }).readings!.map((r) => r.id)).toEqual(['r2']);
  });

  it('a supply: lamps and setups let go of it', () => {
    const scene = done({ do: 'remove', id: 'wall-socket' });
    expect(scene.lamps![1]).not.toHaveProperty('supply');
    expect(scene.setups![1]!.changes.back).toEqual({ filters: ['nd'] });
  });

  it('a camera: its path goes', () => {
    expect(done({ do: 'remove', id: 'a' }).paths!.map((p) => p.id)).toEqual(['cross']);
  });

  it('a solid that a setup changes', () => {
    expect(Object.keys(done({ do: 'remove', id: 'boat' }).setups![1]!.changes)).toEqual(['ada-face', 'back']);
  });

  it.each(['quay', 'ada', 'cross', '1a', 'r1'])('%s', (id) => {
    expect(JSON.stringify(done({ do: 'remove', id }))).not.toContain(`"id":"${id}"`);
  });

  it('leaves the material of the same name, and what setups do to it', () => {
    const scene = edited(fullScene(), { 'readings.0.id': 'hull-gloss' }) as SceneDocument;
    const changed = done({ do: 'remove', id: 'hull-gloss' }, scene);
    expect(changed.setups).toEqual(scene.setups);
    expect(changed.materials).toEqual(scene.materials);
    expect(changed.readings!.map((r) => r.id)).toEqual(['r2']);
  });

  it('refuses an id that is not there', () => {
    expect(refusal({ do: 'remove', id: 'nobody' })).toEqual([
      '(document): found "nobody"; expected the id of a thing in this scene',
    ]);
  });
});

describe('entries of dictionaries', () => {
  it('are defined, new or over the old', () => {
    const entry = { reflectance: 0.5 };
    expect(done({ do: 'define', in: 'materials', name: 'linen', entry }).materials!.linen).toEqual(entry);
    expect(done({ do: 'define', in: 'materials', name: 'asphalt', entry }).materials!.asphalt).toEqual(entry);
    expect(
      done({ do: 'define', in: 'panes', name: 'p', entry: { direct: 1 } }, { keyfall: 1, title: '' }).panes,
    ).toEqual({
      p: { direct: 1 },
    });
  });

  it('are refused when they are not valid, or their name is none', () => {
    expect(refusal({ do: 'define', in: 'materials', name: 'linen', entry: { reflectance: 5 } })).toEqual([
      'materials.linen.reflectance: found 5; expected at most 1 (5 % is 0.05)',
    ]);
    for (const name of ['__proto__', 'White Linen', ''])
      expect(refusal({ do: 'define', in: 'materials', name, entry: { reflectance: 0.5 } })[0]).toMatch(
        /expected a name in small letters/,
      );
  });

  it('are renamed with all that names them, in setups too', () => {
    const scene = done({ do: 'rename-entry', in: 'materials', name: 'hull-gloss', to: 'green' });
    expect(Object.keys(scene.materials!)).toContain('green');
    expect(scene.solids![6]).toMatchObject({ material: 'green', inside: 'green' });
    expect(scene.setups![0]!.changes.green).toEqual({ roughness: 0.2 });
    expect(JSON.stringify(scene)).not.toContain('hull-gloss');

    expect(
      done({ do: 'rename-entry', in: 'filters', name: 'nd', to: 'grey' }).setups![1]!.changes.back,
    ).toMatchObject({
      filters: ['grey'],
    });
    expect(done({ do: 'rename-entry', in: 'heads', name: 'big', to: 'large' }).lamps![0]!.head).toBe('large');
    expect(
      done({ do: 'rename-entry', in: 'panes', name: 'net', to: 'gauze' }).setups![1]!.changes.boat,
    ).toMatchObject({
      windows: [{ pane: 'gauze' }],
    });
  });

  it('are not renamed onto each other', () => {
    expect(refusal({ do: 'rename-entry', in: 'materials', name: 'asphalt', to: 'chart' })).toEqual([
      'materials.chart: found "chart" already in use; expected a new name',
    ]);
    expect(refusal({ do: 'rename-entry', in: 'materials', name: 'grey-card', to: 'x' })[0]).toMatch(
      /found "grey-card"/,
    );
  });

  it('are kept while a reading remembers them', () => {
    const off = edited(fullScene(), { 'lamps.0.filters': [] }) as SceneDocument;
    expect(refusal({ do: 'remove-entry', in: 'filters', name: 'half-blue' }, off)).toEqual([
      'readings[0].taken[0].filters[0] (r1): found "half-blue" still in use here; expected another name first',
    ]);
    const { readings } = done({ do: 'rename-entry', in: 'filters', name: 'half-blue', to: 'blue' });
    expect(readings![0]!.taken![0]!.filters).toEqual(['blue', 'frost']);
  });

  it('are removed when nothing uses them, and setups forget them', () => {
    const unused = edited(fullScene(), {
      'solids.6.material': 'asphalt',
      'solids.6.inside': 'asphalt',
    }) as SceneDocument;
    const scene = done({ do: 'remove-entry', in: 'materials', name: 'hull-gloss' }, unused);
    expect(scene.materials).not.toHaveProperty('hull-gloss');
    expect(scene.setups![0]!.changes).not.toHaveProperty('hull-gloss');
  });

  it('are kept while something uses them', () => {
    expect(refusal({ do: 'remove-entry', in: 'materials', name: 'hull-gloss' })).toEqual([
      'solids[6].material (boat): found "hull-gloss" still in use here; expected another name first',
      'solids[6].inside (boat): found "hull-gloss" still in use here; expected another name first',
    ]);
    const inSetup = edited(fullScene(), { 'lamps.0.filters': [] }) as SceneDocument;
    expect(refusal({ do: 'remove-entry', in: 'filters', name: 'nd' }, inSetup)[0]).toMatch(
      /^setups\[1\]\.changes\.back\.filters\[0\] \(1b\): found "nd"; expected the name of a filter/,
    );
  });

  it('give way to the library’s entry of the same name', () => {
    const scene = edited(fullScene(), {
      'materials.grey-card': { reflectance: 0.2 },
      'solids.0.material': 'grey-card',
    });
    const changed = done({ do: 'remove-entry', in: 'materials', name: 'grey-card' }, scene as SceneDocument);
    expect(changed.materials).not.toHaveProperty('grey-card');
    expect(LIBRARY.materials).toHaveProperty('grey-card');
    expect(changed.solids![0]).toMatchObject({ material: 'grey-card' });
  });
});

describe('sections and words', () => {
  it('changes, makes and removes a section', () => {
    expect(done({ do: 'change-section', section: 'haze', patch: { visibility_m: 80 } }).haze).toEqual({
      ...fullScene().haze,
      visibility_m: 80,
    });
    expect(
      done({ do: 'change-section', section: 'calibration', patch: { flat: 300 } }, { keyfall: 1, title: '' }),
    ).toEqual({
      keyfall: 1,
      title: '',
      calibration: { flat: 300 },
    });
    expect(done({ do: 'change-section', section: 'site', patch: null })).not.toHaveProperty('site');
  });

  it('refuses a section that is none, and to take away what a setup rests on', () => {
    expect(refusal({ do: 'change-section', section: 'haze', patch: { visibility_m: 0 } })).toEqual([
      'haze.visibility_m: found 0; expected at least 0.1 m',
    ]);
    const thin = edited(fullScene(), { 'setups.0.changes': { haze: { albedo: 0.5 } } }) as SceneDocument;
    expect(refusal({ do: 'change-section', section: 'haze', patch: null }, thin)).toEqual([
      'setups[0].changes.haze.visibility_m (1a): found nothing; expected a finite number in m',
    ]);
  });

  it('gives title and notes', () => {
    expect(done({ do: 'describe', title: 'New' })).toEqual({ ...fullScene(), title: 'New' });
    expect(done({ do: 'describe', notes: 'Line\nand line' })).toEqual({
      ...fullScene(),
      notes: 'Line\nand line',
    });
    expect(refusal({ do: 'describe', title: 'two\nlines' })[0]).toMatch(/^title: found "two\\nlines"/);
  });
});

describe('several edits as one', () => {
  const lamp = { id: 'new', head: 'own', position_m: [0, 2, 0], aim_m: [0, 0, 4] };
  const head = { ...LIBRARY.heads['discharge-1800-spot']! };

  it('are done in turn, and only what they come to has to be valid', () => {
    const { document, problems } = applyCommands(frozen(fullScene()), [
      { do: 'add', to: 'lamps', thing: lamp },
      { do: 'define', in: 'heads', name: 'own', entry: head },
      { do: 'change', id: 'new', patch: { level: 0.5 } },
      { do: 'rename', id: 'new', to: 'newer' },
    ] as Command[]);
    expect(problems).toBeUndefined();
    expect(document!.lamps!.at(-1)).toEqual({ ...lamp, id: 'newer', level: 0.5 });
  });

  it('follow references only through what is valid', () => {
    const { problems } = applyCommands(frozen(fullScene()), [
      { do: 'add', to: 'lamps', thing: null },
      { do: 'rename', id: 'back', to: 'far' },
    ] as unknown as Command[]);
    expect(problems!.length).toBeGreaterThan(0);
  });

  it('are taken all or none', () => {
    const { document, problems } = applyCommands(frozen(fullScene()), [
      { do: 'describe', title: 'Half done' },
      { do: 'change', id: 'back', patch: { level: 7 } },
    ]);
    expect(document).toBeUndefined();
    expect(problems!.length).toBeGreaterThan(0);
  });
});
