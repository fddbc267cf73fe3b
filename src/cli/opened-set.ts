import type { LightModel } from '../core/light-model/light-model.ts';
import { compileScene } from '../scene/compile/compile-scene.ts';
import type { SceneFiles } from '../scene/files/scene-files.ts';
import { problemText } from '../scene/problems/problem.ts';
import type { SceneDocument } from '../scene/schema/document.ts';
import { sceneInSetup } from '../scene/setups/scene-in-setup.ts';
import type { OptionValues, Streams } from './command.ts';
import { filesBeside, openSceneFile } from './scene-input.ts';
import { UsageError } from './usage-error.ts';

/** A scene file opened, in the setup that was asked for, with its files, ready to be computed. */
export interface OpenedSet {
  /** As the file has it, before any setup. */
  readonly base: SceneDocument;
  readonly document: SceneDocument;
  readonly files: SceneFiles;
  readonly model: LightModel;
}

/** Prints every problem on the way. Throws UsageError where the scene or its files cannot be used. */
export async function openSet(path: string, values: OptionValues, streams: Streams): Promise<OpenedSet> {
  const opened = await openSceneFile(path);
  if (!opened.document) {
    for (const problem of opened.problems) streams.err(problemText(problem, path));
    throw new UsageError(`${path} is not a valid scene`);
  }
  const document = sceneInSetup(opened.document, values.setup as string | undefined);
  const { files, problems } = await filesBeside(path, document);
  for (const problem of problems) streams.err(`${problem.severity}: ${problemText(problem, path)}`);
  if (problems.some((p) => p.severity === 'error'))
    throw new UsageError(`${path} names files that cannot be used`);
  return { base: opened.document, document, files, model: compileScene(document, files) };
}
