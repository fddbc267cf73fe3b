import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import type { Command } from '../../../src/scene/commands/command.ts';
import { openRaw } from '../../../src/scene/file/open-scene.ts';
import { saveScene } from '../../../src/scene/file/save-scene.ts';
import { DICTIONARIES, LISTS, type SceneDocument, SECTIONS } from '../../../src/scene/schema/document.ts';
import { frozen, fullScene } from '../../support/scenes.ts';

/**
 * Sequences of edits, sensible and not: names that exist, that are taken, that are reserved; patches that fit and that
 * do not. Whatever comes, a document stays valid, the one before stays as it was, and undo gives it back to the byte.
 */
describe('random edits', () => {
  const outcomes = new Map<Command['do'], { done: number; refused: number }>();

  it('keep the scene valid, the old scene untouched, and undo exact', () => {
    fc.assert(
      fc.property(
        fc.array(fc.infiniteStream(fc.noBias(fc.nat(1e6))), { minLength: 1, maxLength: 14 }),
        (choices) => {
          let scene = frozen(fullScene());
          const history: { scene: SceneDocument; copy: SceneDocument; text: string }[] = [];
          for (const numbers of choices) {
            const copy = structuredClone(scene);
            history.push({ scene, copy, text: saveScene(scene) });
            const command = commandFor(scene, numbers);
            const applied = applyCommand(scene, command);
            expect(scene).toEqual(copy);

            const counts = outcomes.get(command.do) ?? { done: 0, refused: 0 };
            outcomes.set(command.do, counts);
            if (applied.problems) {
              expect(applied.problems.length).toBeGreaterThan(0);
              counts.refused++;
            } else {
              expect(openRaw(structuredClone(applied.document)).problems).toEqual([]);
              scene = frozen(applied.document);
              counts.done++;
            }
          }
          for (const { scene: before, copy, text } of history.reverse()) {
            expect(before).toEqual(copy);
            expect(saveScene(before)).toBe(text);
          }
        },
      ),
      { seed: 20270304, numRuns: 60 },
    );
  });

  it('were of every kind, done and refused', () => {
    const kinds = [...outcomes.keys()].sort();
    expect(kinds).toEqual([
      'add',
      'change',
      'change-section',
      'define',
      'describe',
      'move',
      'remove',
      'remove-entry',
      'rename',
      'rename-entry',
    ]);
    for (const [kind, { done, refused }] of outcomes) {
      expect(done, `${kind} done`).toBeGreaterThan(0);
      expect(refused, `${kind} refused`).toBeGreaterThan(0);
    }
  });
});

const NEW_NAMES = [
  'n-1',
  'n-2',
  'asphalt',
  'key',
  'haze',
  'walker',
  'constructor',
  'Not a name',
  '__proto__',
  'grey-card',
];

function commandFor(scene: SceneDocument, numbers: Iterator<number>): Command {
  const pick = <T>(choices: readonly T[]): T => choices[(numbers.next().value as number) % choices.length]!;
  const things = LISTS.flatMap((list) => (scene[list] ?? []).map((thing) => ({ list, thing })));
  const ids = [...things.map(({ thing }) => thing.id), ...Array<string>(8).fill('nobody')];
  if (things.length === 0) return { do: 'add', to: 'marks', thing: { id: 'n-1' } };
  const dictionary = pick(DICTIONARIES);
  const names = [...Object.keys(scene[dictionary] ?? {}), 'nothing'];
  const index = pick([0, 1, 2, 99, -1]);

  const patches: readonly object[] = [
    {},
    { name: 'Other' },
    { name: null },
    { position_m: [1, 2, 3] },
    { position_m: [0, 'x', 0] },
    { level: 0.25 },
    { filters: [pick(Object.keys(scene.filters ?? {}).concat('half-ctb'))] },
    { supply: pick(scene.supplies?.map((s) => s.id) ?? ['gen']) },
    { facing: `lamp:${pick(scene.lamps?.map((l) => l.id) ?? ['key'])}` },
    { material: pick(Object.keys(scene.materials ?? {}).concat('concrete')) },
    { reflectance: 0.3 },
    { direct: 0.4 },
    { stops: 2 },
    { mass_kg: 3 },
    { visibility_m: 40 },
    { flat: 260 },
    { id: pick(NEW_NAMES) },
    { head: null },
    { bogus: 1 },
    { changes: { [pick(ids)]: { name: 'In a setup' } } },
    { windows: null },
  ];

  switch (numbers.next().value! % 10) {
    case 0: {
      const { list, thing } = pick(things);
      return { do: 'add', to: list, thing: { ...structuredClone(thing), id: pick(NEW_NAMES) }, index };
    }
    case 1:
      return { do: 'change', id: pick(ids), patch: pick(patches) };
    case 2:
      return { do: 'move', id: pick(ids), index };
    case 3:
      return { do: 'rename', id: pick(ids), to: pick(NEW_NAMES) };
    case 4:
      return { do: 'remove', id: pick(ids) };
    case 5: {
      const entry = (scene[dictionary] as Record<string, object> | undefined)?.[pick(names)] ?? {
        reflectance: 0.2,
      };
      return { do: 'define', in: dictionary, name: pick(NEW_NAMES), entry };
    }
    case 6:
      return { do: 'rename-entry', in: dictionary, name: pick(names), to: pick(NEW_NAMES) };
    case 7:
      return { do: 'remove-entry', in: dictionary, name: pick(names) };
    case 8:
      return { do: 'change-section', section: pick(SECTIONS), patch: pick([...patches, null]) };
    default:
      return { do: 'describe', title: pick(['A title', '', 'two\nlines']), notes: 'x' };
  }
}
