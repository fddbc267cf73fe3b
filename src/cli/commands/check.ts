import { newCompileMemo } from '../../scene/compile/compile-scene.ts';
import { sceneWarnings } from '../../scene/compile/scene-warnings.ts';
import { type Problem, problemText, SceneError } from '../../scene/problems/problem.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { applySetup } from '../../scene/setups/apply-setup.ts';
import { type CommandLineCommand, JSON_OPTION } from '../command.ts';
import { BAD_INPUT, DONE } from '../exit.ts';
import { filesBeside, openSceneFile } from '../scene-input.ts';

/** Is the document valid: every problem at once, each with its place and the mend. */
export const check: CommandLineCommand = {
  name: 'check',
  answers: 'is the scene valid; every problem at once, with its place and the mend',
  options: { json: JSON_OPTION },
  async run(path, values, streams) {
    const { document, problems: inDocument } = await openSceneFile(path);
    const problems = [...inDocument, ...(document ? await builtProblems(path, document) : [])];
    const errors = problems.filter((p) => p.severity === 'error');
    if (values.json) {
      streams.out(
        JSON.stringify({
          keyfall: 1,
          valid: errors.length === 0,
          problems: problems.map(({ at: _, ...problem }) => problem),
        }),
      );
    } else {
      for (const problem of problems) streams.out(`${problem.severity}: ${problemText(problem, path)}`);
      streams.out(summary(path, errors.length, problems.length - errors.length));
    }
    return errors.length === 0 ? DONE : BAD_INPUT;
  },
};

/** What comes to light only when the scene is put together with its files: as it stands, and in each of its setups. */
async function builtProblems(path: string, document: SceneDocument): Promise<readonly Problem[]> {
  const base = await filesBeside(path, document);
  const memo = newCompileMemo();
  const problems = [
    ...base.problems,
    ...unlessErrors(base.problems, () => sceneWarnings(document, base.files, memo)),
  ];
  const known = new Set(problems.map((p) => problemText(p)));
  for (const setup of document.setups ?? []) {
    const scene = applySetup(document, setup);
    const sameFiles = scene.heads === document.heads && scene.solids === document.solids;
    const { files, problems: inFiles } = sameFiles ? base : await filesBeside(path, scene);
    const all = [...inFiles, ...unlessErrors(inFiles, () => sceneWarnings(scene, files, memo))];
    for (const problem of all.filter((p) => !known.has(problemText(p))))
      problems.push({ ...problem, found: `${problem.found}, in setup "${setup.id}"` });
  }
  return problems;
}

function unlessErrors(before: readonly Problem[], build: () => readonly Problem[]): readonly Problem[] {
  if (before.some((p) => p.severity === 'error')) return [];
  try {
    return build();
  } catch (error) {
    if (error instanceof SceneError) return error.problems;
    throw error;
  }
}

function summary(path: string, errors: number, warnings: number): string {
  if (errors > 0) return `${path}: ${counted(errors, 'error')}, ${counted(warnings, 'warning')}`;
  return `${path}: valid${warnings > 0 ? `, ${counted(warnings, 'warning')}` : ''}`;
}

function counted(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? '' : 's'}`;
}
