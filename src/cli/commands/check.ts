import { sceneWarnings } from '../../scene/compile/scene-warnings.ts';
import { problemText } from '../../scene/problems/problem.ts';
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
    const problems = [...inDocument];
    if (document) {
      const { files, problems: inFiles } = await filesBeside(path, document);
      problems.push(...inFiles);
      if (!inFiles.some((p) => p.severity === 'error')) problems.push(...sceneWarnings(document, files));
    }
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

function summary(path: string, errors: number, warnings: number): string {
  if (errors > 0) return `${path}: ${counted(errors, 'error')}, ${counted(warnings, 'warning')}`;
  return `${path}: valid${warnings > 0 ? `, ${counted(warnings, 'warning')}` : ''}`;
}

function counted(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? '' : 's'}`;
}
