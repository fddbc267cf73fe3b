import { type SceneDocument, SECTIONS } from '../schema/document.ts';
import { changeableIds, type Target, targetsOf } from '../setups/apply-setup.ts';
import { mergePatch } from '../setups/merge-patch.ts';
import { nearestName } from './nearest-name.ts';
import { type Path, type Problem, pathText, problemAt, shown } from './problem.ts';
import { type KnownNames, referenceProblems } from './reference-problems.ts';
import { schemaProblems } from './schema-problems.ts';
import { shapeProblems } from './shape-problems.ts';

/** What is wrong with the setups of an otherwise valid document: unknown ids, and changes that make a thing invalid. */
export function setupProblems(document: SceneDocument, names: KnownNames): Problem[] {
  const problems: Problem[] = [];
  for (const [s, setup] of (document.setups ?? []).entries()) {
    for (const [id, patch] of Object.entries(setup.changes)) {
      const at: Path = ['setups', s, 'changes', id];
      const [target, ...others] = targetsOf(document, id);
      if (!target) {
        problems.push(
          problemAt(document, at, {
            found: `a change to ${shown(id)}`,
            expected: 'the id of a thing in this scene, or "haze", "site", "calibration"',
            nearest: nearestName(id, changeableIds(document)),
          }),
        );
        continue;
      }
      if (others.length > 0) {
        const found = `a change to ${shown(id)}, which stands in ${[target, ...others].map((t) => t.in).join(' and ')}`;
        problems.push(
          problemAt(document, at, { found, expected: 'a name that means one thing (rename the other)' }),
        );
        continue;
      }
      if (Object.hasOwn(patch, 'id')) {
        problems.push(
          problemAt(document, [...at, 'id'], {
            found: 'a new id',
            expected: 'the id left as it is (a setup cannot rename)',
          }),
        );
        continue;
      }
      const { part, root } = patched(document, target, id, patch);
      const wrong = [...schemaProblems(part), ...referenceProblems(part, names)];
      if (wrong.length === 0) wrong.push(...shapeProblems(part as SceneDocument));
      for (const problem of wrong) {
        const within = [...at, ...problem.at.slice(root.length)];
        problems.push({ ...problem, at: within, path: pathText(within), thing: setup.id });
      }
    }
  }
  return problems;
}

/** A document of nothing but the patched thing, and the path of the thing in it. */
function patched(
  document: SceneDocument,
  target: Target,
  id: string,
  patch: unknown,
): { part: unknown; root: Path } {
  const head = { keyfall: document.keyfall, title: '' };
  if ('index' in target) {
    const entries: readonly unknown[] = document[target.in] ?? [];
    return {
      part: { ...head, [target.in]: [mergePatch(entries[target.index], patch)] },
      root: [target.in, 0],
    };
  }
  if ((SECTIONS as readonly string[]).includes(target.in)) {
    return { part: { ...head, [target.in]: mergePatch(document[target.in], patch) }, root: [target.in] };
  }
  const entries = document[target.in] as Record<string, unknown>;
  return { part: { ...head, [target.in]: { [id]: mergePatch(entries[id], patch) } }, root: [target.in, id] };
}
