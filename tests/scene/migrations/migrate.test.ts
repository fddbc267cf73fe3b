import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { saveScene } from '../../../src/scene/file/save-scene.ts';
import { MIGRATIONS, type Migration, migrate } from '../../../src/scene/migrations/migrate.ts';
import { problemText } from '../../../src/scene/problems/problem.ts';
import { CURRENT_VERSION } from '../../../src/scene/schema/document.ts';
import { frozen } from '../../support/scenes.ts';

/** Three versions of a format that never was. */
const STEPS: readonly Migration[] = [
  {
    from: 2,
    what: 'lights became lamps',
    up: ({ lights, ...rest }) => ({ ...rest, lamps: lights }),
  },
  {
    from: 3,
    what: 'a title is required',
    up: (raw) => ({ ...raw, title: raw.title ?? 'Untitled' }),
  },
];

function migrated(raw: unknown) {
  return migrate(frozen(raw), STEPS, 4);
}

function refusal(raw: unknown, migrations?: readonly Migration[], current?: number): string {
  const result = migrate(raw, migrations, current);
  return 'problem' in result ? problemText(result.problem) : 'accepted';
}

describe('migrating', () => {
  it('takes every step from the version of the document on, in order', () => {
    expect(migrated({ keyfall: 2, lights: [1] })).toEqual({
      raw: { keyfall: 4, lamps: [1], title: 'Untitled' },
    });
    expect(migrated({ keyfall: 3, lights: [1] })).toEqual({
      raw: { keyfall: 4, lights: [1], title: 'Untitled' },
    });
  });

  it('gives a document of the current version back as it is', () => {
    const raw = { keyfall: 4, anything: {} };
    expect(migrate(raw, STEPS, 4)).toEqual({ raw });
  });

  it('refuses a newer version and says what to do', () => {
    expect(refusal({ keyfall: 5 }, STEPS, 4)).toBe(
      'keyfall: found 5, a scene of a newer Keyfall; expected at most 4 (update Keyfall to open it)',
    );
    expect(refusal({ keyfall: CURRENT_VERSION + 1, title: '' })).toMatch(/a scene of a newer Keyfall/);
    expect(refusal({ keyfall: Number.MAX_SAFE_INTEGER, title: '' })).toMatch(/a scene of a newer Keyfall/);
  });

  it('refuses a version older than the first step', () => {
    expect(refusal({ keyfall: 1 }, STEPS, 4)).toBe(
      'keyfall: found 1; expected the version of the scene format, "keyfall": 4',
    );
  });

  it.each([
    [{}, 'keyfall: found nothing'],
    [{ keyfall: '1' }, 'keyfall: found "1"'],
    [{ keyfall: 1.5 }, 'keyfall: found 1.5'],
    [{ keyfall: 0 }, 'keyfall: found 0'],
    [{ keyfall: -1 }, 'keyfall: found -1'],
    [{ keyfall: Number.NaN }, 'keyfall: found NaN'],
    [{ keyfall: Number.POSITIVE_INFINITY }, 'keyfall: found Infinity'],
    [{ keyfall: null }, 'keyfall: found null'],
    [Object.create({ keyfall: 1 }), 'keyfall: found nothing'],
  ])('refuses %j', (raw, found) => {
    expect(refusal(raw)).toBe(`${found}; expected the version of the scene format, "keyfall": 1`);
  });

  it.each([
    [null, 'null'],
    [undefined, 'nothing'],
    [7, '7'],
    ['scene', '"scene"'],
    [[1, 2], '[1,2]'],
  ])('refuses %j, which is no scene', (raw, found) => {
    expect(refusal(raw)).toBe(
      `(document): found ${found}; expected a scene, an object {…} with "keyfall": 1`,
    );
  });
});

/**
 * `tests/fixtures/documents/version-N.json` holds a document that uses everything of version N, as that version saved
 * it. It is frozen: never edit one, whatever the format becomes. Of a new version, add another.
 */
function fixture(version: number): URL {
  return new URL(`../../fixtures/documents/version-${version}.json`, import.meta.url);
}

describe('documents of every version there has been', () => {
  it('follow each other without a gap, up to the current one', () => {
    expect(MIGRATIONS.map((m) => m.from)).toEqual(
      MIGRATIONS.map((_, i) => CURRENT_VERSION - MIGRATIONS.length + i),
    );
    expect(MIGRATIONS.every((m) => m.what.length > 0)).toBe(true);
  });

  const versions = [...MIGRATIONS.map((m) => m.from), CURRENT_VERSION];

  it.each(versions)('version %i has its fixture, which opens', (version) => {
    expect(existsSync(fixture(version))).toBe(true);
    const text = readFileSync(fixture(version), 'utf8');
    expect(JSON.parse(text).keyfall).toBe(version);
    const { document, problems } = openScene(text);
    expect(problems).toEqual([]);
    const saved = saveScene(document!);
    expect(saveScene(openScene(saved).document!)).toBe(saved);
  });

  it('the current version saves its fixture to the byte', () => {
    const text = readFileSync(fixture(CURRENT_VERSION), 'utf8');
    expect(saveScene(openScene(text).document!)).toBe(text);
  });
});
