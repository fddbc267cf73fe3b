import { type BalanceReport, balanceScene } from '../../scene/balance/balance-scene.ts';
import type { Want } from '../../scene/balance/wants.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import { LIBRARY } from '../../scene/library/library.ts';
import { type Problem, SceneError } from '../../scene/problems/problem.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { sceneInSetup } from '../../scene/setups/scene-in-setup.ts';
import { type BesideFiles, newKeptSet } from '../worker/kept-set.ts';

export interface BalanceQuestion {
  /** Before any setup. */
  readonly document: SceneDocument;
  readonly beside: BesideFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  readonly wants: readonly Want[];
}

export interface BalanceAnswer {
  /** Null where the question has no answer; `problems` says why. */
  readonly report: BalanceReport | null;
  readonly problems: readonly Problem[];
}

/** Works in the worker: what `keyfall balance` answers, from the same functions. */
export async function balanceAtDesk(question: BalanceQuestion): Promise<BalanceAnswer> {
  const { document, beside, setup, camera, wants } = question;
  const set = newKeptSet();
  set.take({ set: document, kept: [] }, beside);
  try {
    const shown = sceneInSetup(document, setup);
    const { files, problems } = await set.filesOf(shown);
    if (problems.some(({ severity }) => severity === 'error')) return { report: null, problems };
    const corrections = await set.correctionsOf(document);
    const report = balanceScene(shown, {
      setup,
      camera,
      wants,
      corrections,
      compile: (variant) =>
        correctedModel(compileScene(variant, files, LIBRARY, set.memo), variant, corrections),
    });
    return { report, problems: [] };
  } catch (error) {
    if (!(error instanceof SceneError)) throw error;
    return { report: null, problems: error.problems };
  }
}
