import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Command } from '../../../src/scene/commands/command.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { applySetup } from '../../../src/scene/setups/apply-setup.ts';
import { differencePatch } from '../../../src/scene/setups/difference-patch.ts';
import { editAllInSetup, editInSetup } from '../../../src/scene/setups/edit-in-setup.ts';
import { mergePatch } from '../../../src/scene/setups/merge-patch.ts';

const opened = openScene(
  JSON.stringify({
    keyfall: 1,
    title: 'Two lamps',
    materials: { floor: { reflectance: 0.2 } },
    lamps: [
      {
        id: 'key',
        head: 'small',
        position_m: [0, 2, 0],
        aim_m: [0, 0, 4],
        level: 0.5,
        filters: ['half-ctb'],
      },
      { id: 'fill', head: 'small', position_m: [1, 2, 0], aim_m: [0, 0, 4] },
    ],
    heads: {
      small: {
        photometry: { kind: 'beam', peak_cd: 1000, beam_deg: 20, field_deg: 40 },
        face: { shape: 'disc', diameter_m: 0.1 },
        spectrum: { kind: 'planck', cct_K: 3200 },
      },
    },
    haze: { visibility_m: 500 },
    setups: [{ id: 'one', changes: { key: { level: 0.25 } } }],
  }),
);
const document = opened.document!;

function edited(command: Command, from = document) {
  const { document: after, problems } = editInSetup(from, 'one', command);
  if (!after) throw new Error(JSON.stringify(problems));
  return after;
}

describe('an edit while a setup is shown', () => {
  it('becomes the setup’s own and leaves the base as it was', () => {
    const after = edited({ do: 'change', id: 'fill', patch: { on: false } });
    expect(after.lamps).toEqual(document.lamps);
    expect(after.setups![0]!.changes).toEqual({ key: { level: 0.25 }, fill: { on: false } });
  });

  it('adds to what the setup changes of the same thing already, nulls included', () => {
    const after = edited({ do: 'change', id: 'key', patch: { filters: null } });
    expect(after.setups![0]!.changes).toEqual({ key: { level: 0.25, filters: null } });
    expect(applySetup(after, after.setups![0]!).lamps![0]).not.toHaveProperty('filters');
  });

  it('is forgotten where things stand as in the base again', () => {
    const after = edited({ do: 'change', id: 'key', patch: { level: 0.5 } });
    expect(after.setups![0]!.changes).toEqual({});
  });

  it('holds haze and materials too', () => {
    const hazy = edited({ do: 'change-section', section: 'haze', patch: { visibility_m: 100 } });
    const both = edited({ do: 'define', in: 'materials', name: 'floor', entry: { reflectance: 0.4 } }, hazy);
    expect(both.setups![0]!.changes).toEqual({
      key: { level: 0.25 },
      haze: { visibility_m: 100 },
      floor: { reflectance: 0.4 },
    });
  });

  it('goes to the base where a setup cannot hold it', () => {
    const after = edited({ do: 'remove', id: 'fill' });
    expect(after.lamps!.map(({ id }) => id)).toEqual(['key']);
    expect(edited({ do: 'describe', title: 'Other' }).title).toBe('Other');
  });

  it('is refused with a reason where a setup cannot take something away', () => {
    const { problems } = editInSetup(document, 'one', { do: 'change-section', section: 'haze', patch: null });
    expect(problems![0]!.expected).toContain('in the base');
  });
});

describe('a difference patch', () => {
  it('makes the one of the other when merged', () => {
    const json = fc.jsonValue({ maxDepth: 3 }).map(withoutNull);
    fc.assert(
      fc.property(fc.dictionary(fc.string(), json), fc.dictionary(fc.string(), json), (before, after) => {
        const patch = differencePatch(before, after);
        expect(patch === undefined ? before : mergePatch(before, patch)).toEqual(after);
      }),
      { seed: 20261127 },
    );
  });
});

/** Documents hold no null; a merge patch could not put one there. */
function withoutNull(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutNull);
  if (typeof value !== 'object' || value === null) return value ?? 0;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, withoutNull(inner)]));
}

describe('several edits while a setup is shown', () => {
  it('become the setup’s own together, or none of them', () => {
    const commands: Command[] = [
      { do: 'change', id: 'fill', patch: { on: false } },
      { do: 'change', id: 'key', patch: { aim_m: [0, 1, 4] } },
      { do: 'change-section', section: 'haze', patch: { visibility_m: 300 } },
    ];
    const { document: after } = editAllInSetup(document, 'one', commands);
    expect(after!.lamps).toEqual(document.lamps);
    expect(after!.setups![0]!.changes).toEqual({
      key: { level: 0.25, aim_m: [0, 1, 4] },
      fill: { on: false },
      haze: { visibility_m: 300 },
    });
    const bad: Command = { do: 'change', id: 'key', patch: { level: 7 } };
    expect(editAllInSetup(document, 'one', [...commands, bad]).document).toBeUndefined();
  });
});
