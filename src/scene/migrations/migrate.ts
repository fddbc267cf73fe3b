import { type Problem, problemAt, shown } from '../problems/problem.ts';
import { CURRENT_VERSION } from '../schema/document.ts';

/** One step from a version to the next. `up` takes a raw document of version `from` and returns one of `from + 1`. */
export interface Migration {
  readonly from: number;
  readonly what: string;
  readonly up: (raw: Record<string, unknown>) => Record<string, unknown>;
}

/** In order, without gaps, ending at the current version. Version 1 is the first, so there are none yet. */
export const MIGRATIONS: readonly Migration[] = [];

/** Brings a raw document up to the current version, or says why it cannot be. */
export function migrate(
  raw: unknown,
  migrations: readonly Migration[] = MIGRATIONS,
  current: number = CURRENT_VERSION,
): { readonly raw: unknown } | { readonly problem: Problem } {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    return {
      problem: problemAt(raw, [], {
        found: shown(raw),
        expected: 'a scene, an object {…} with "keyfall": 1',
      }),
    };
  }
  const version = Object.hasOwn(raw, 'keyfall') ? (raw as { keyfall: unknown }).keyfall : undefined;
  const oldest = migrations[0]?.from ?? current;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < oldest) {
    return {
      problem: problemAt(raw, ['keyfall'], {
        found: shown(version),
        expected: `the version of the scene format, "keyfall": ${current}`,
      }),
    };
  }
  if (version > current) {
    return {
      problem: problemAt(raw, ['keyfall'], {
        found: `${version}, a scene of a newer Keyfall`,
        expected: `at most ${current} (update Keyfall to open it)`,
      }),
    };
  }
  let migrated = raw as Record<string, unknown>;
  for (const migration of migrations) {
    if (migration.from >= version) migrated = { ...migration.up(migrated), keyfall: migration.from + 1 };
  }
  return { raw: migrated };
}
