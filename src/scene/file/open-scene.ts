import { LIBRARY, type Library } from '../library/library.ts';
import { migrate } from '../migrations/migrate.ts';
import { MAX_PROBLEMS, type Problem } from '../problems/problem.ts';
import { identityProblems, knownNames, referenceProblems } from '../problems/reference-problems.ts';
import { schemaProblems } from '../problems/schema-problems.ts';
import { setupProblems } from '../problems/setup-problems.ts';
import { shapeProblems } from '../problems/shape-problems.ts';
import { takenProblems } from '../problems/taken-problems.ts';
import type { SceneDocument } from '../schema/document.ts';
import { parseJson, withLines } from './parse-json.ts';

export type Opened =
  | { readonly document: SceneDocument; readonly problems: readonly Problem[] }
  | { readonly document: null; readonly problems: readonly Problem[] };

/** Text of a scene file → a valid document, or every problem at once, each with its line. */
export function openScene(text: string, library: Library = LIBRARY): Opened {
  const parsed = parseJson(text);
  if ('problems' in parsed) return { document: null, problems: parsed.problems };
  const opened = openRaw(parsed.raw, library);
  if (opened.problems.length === 0) return opened;
  return { ...opened, problems: withLines(opened.problems, text) };
}

/** The same for a value that is parsed already. */
export function openRaw(given: unknown, library: Library = LIBRARY): Opened {
  const migrated = migrate(given);
  if ('problem' in migrated) return { document: null, problems: [migrated.problem] };
  const { raw } = migrated;
  const names = knownNames(raw, library);
  const dangling = referenceProblems(raw, names);
  const said = new Set(dangling.map((p) => p.path));
  const malformed = schemaProblems(raw).filter((p) => !said.has(p.path));
  const problems = [...malformed, ...identityProblems(raw), ...dangling];
  if (problems.length === 0) {
    const document = raw as SceneDocument;
    problems.push(...shapeProblems(document), ...takenProblems(document), ...setupProblems(document, names));
  }
  const errors = problems.some((p) => p.severity === 'error');
  return { document: errors ? null : (raw as SceneDocument), problems: problems.slice(0, MAX_PROBLEMS) };
}
