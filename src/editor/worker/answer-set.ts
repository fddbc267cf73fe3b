import type { LightModel } from '../../core/light-model/light-model.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import type { SceneFiles } from '../../scene/files/scene-files.ts';
import { LIBRARY } from '../../scene/library/library.ts';
import { type Problem, SceneError } from '../../scene/problems/problem.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import type { Corrections } from '../../scene/readings/corrections.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { sceneInSetup } from '../../scene/setups/scene-in-setup.ts';
import type { KeptSet } from './kept-set.ts';

/** A scene in the setup that was asked for, with what questions about it have in common; made when first needed. */
export interface AnswerSet {
  /** Before any setup, and in the one that was asked for. */
  readonly base: SceneDocument;
  readonly document: SceneDocument;
  readonly baseFiles: SceneFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  /** How many readings of the night have corrected the light model; undefined without any. */
  readonly readings: number | undefined;
  /** As planned, for questions that light has nothing to do with. */
  planned(): LightModel;
  /** As the readings of the night say. */
  model(): LightModel;
  /** The same of this document with something of it changed. */
  modelOf(variant: SceneDocument): LightModel;
  /** Works something out, or remembers it while the scene stays what it is. */
  once<T>(name: string, work: () => T): T;
}

export interface AnswerSetRequest {
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  /** Whether the light model is asked for, which the night's readings correct. */
  readonly light: boolean;
}

/** @throws SceneError where files are missing or broken, or the setup is not there */
export async function answerSetOf(
  kept: KeptSet,
  base: SceneDocument,
  request: AnswerSetRequest,
): Promise<AnswerSet> {
  const document = sceneInSetup(base, request.setup);
  const files = await usable(kept, document);
  const baseFiles = base === document ? files : await usable(kept, base);
  const corrections = request.light ? await kept.correctionsOf(base) : null;
  return answerSet(kept, { base, document, files, baseFiles, corrections }, request);
}

async function usable(kept: KeptSet, document: SceneDocument): Promise<SceneFiles> {
  const { files, problems } = await kept.filesOf(document);
  const errors = problems.filter(isError);
  if (errors.length > 0) throw new SceneError(errors);
  return files;
}

function isError({ severity }: Problem): boolean {
  return severity === 'error';
}

interface Opened {
  readonly base: SceneDocument;
  readonly document: SceneDocument;
  readonly files: SceneFiles;
  readonly baseFiles: SceneFiles;
  readonly corrections: Corrections | null;
}

function answerSet(kept: KeptSet, opened: Opened, { setup, camera }: AnswerSetRequest): AnswerSet {
  const { base, document, files, baseFiles, corrections } = opened;
  const known = new Map<string, unknown>();
  const once = <T>(name: string, work: () => T): T => {
    if (!known.has(name)) known.set(name, work());
    return known.get(name) as T;
  };
  const compiled = (variant: SceneDocument) => compileScene(variant, files, LIBRARY, kept.memo);
  const planned = () => once('planned', () => compiled(document));
  return {
    base,
    document,
    baseFiles,
    setup,
    camera,
    readings: corrections?.readings.length,
    planned,
    model: () => once('model', () => correctedModel(planned(), document, corrections)),
    modelOf: (variant) => correctedModel(compiled(variant), variant, corrections),
    once,
  };
}
