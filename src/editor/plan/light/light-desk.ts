import type { LightModel } from '../../../core/light-model/light-model.ts';
import { chosenCamera } from '../../../scene/camera/scene-camera.ts';
import { compileScene, newCompileMemo } from '../../../scene/compile/compile-scene.ts';
import { readSceneFiles, type SceneFiles } from '../../../scene/files/scene-files.ts';
import { LIBRARY } from '../../../scene/library/library.ts';
import { type ClearRegion, searchClearRegion } from '../../../scene/mirror/clear-region.ts';
import type { PlanPoint } from '../../../scene/mirror/plan.ts';
import { problemText, SceneError } from '../../../scene/problems/problem.ts';
import { correctedModel } from '../../../scene/readings/corrected-model.ts';
import { type Corrections, correctionsFrom } from '../../../scene/readings/corrections.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { sceneInSetup } from '../../../scene/setups/scene-in-setup.ts';
import { type DocumentChanges, withChanges } from '../../worker/document-changes.ts';
import type { BesideFiles } from '../../worker/reading-desk.ts';
import type { MeterHold } from '../plan-state.ts';
import { type LightLattice, lightLattice } from './light-lattice.ts';

interface Asked {
  readonly changes: DocumentChanges;
  /** Only when they are others than last time. */
  readonly beside?: BesideFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
}

export interface LightQuestion extends Asked {
  readonly low_m: PlanPoint;
  readonly high_m: PlanPoint;
  readonly height_m: number;
  readonly hold: MeterHold;
  readonly muted: readonly string[];
}

export interface ClearQuestion extends Asked {
  readonly lamp: string;
}

/** Either what was asked for, or in words why there is none. */
export type LightAnswer = Answered<LightLattice>;
export type ClearAnswer = Answered<ClearRegion>;
type Answered<T> = { readonly found: T } | { readonly found: null; readonly why: string };

/** What is known so far, or only how far it is. */
export type OnLight = (share: number, soFar: LightLattice | null) => void;
export type OnShare = (share: number) => void;

/** Works in the worker: light all over the plan, and where a lamp may stand without a glint. */
export interface LightDesk {
  /** Null when another such question or `leaveOff` came before it was done. */
  light(question: LightQuestion, onLight: OnLight): Promise<LightAnswer | null>;
  clear(question: ClearQuestion, onShare: OnShare): Promise<ClearAnswer | null>;
  leaveOff(what: 'light' | 'clear'): void;
}

/** A first sight of the light, then what is drawn to last: places along the longer side. */
const FIRST_PLACES = 20;
const ALL_PLACES = 64;
const FIRST_SHARE = 0.1;
/** Between two looks at whether a newer question has come. */
const BREATH_ms = 40;

export function newLightDesk(): LightDesk {
  const sceneOf = newKnownScene();
  const turns = { light: 0, clear: 0 };

  const worked = async <T>(
    what: keyof typeof turns,
    mine: number,
    work: Generator<number, T>,
    onShare: OnShare,
  ): Promise<T | null> => {
    let breath_ms = performance.now();
    for (;;) {
      const step = work.next();
      if (step.done) return step.value;
      if (performance.now() - breath_ms < BREATH_ms) continue;
      onShare(step.value);
      await new Promise((next) => setTimeout(next));
      if (turns[what] !== mine) return null;
      breath_ms = performance.now();
    }
  };

  return {
    leaveOff(what) {
      turns[what]++;
    },
    async light(question, onLight) {
      const mine = ++turns.light;
      return answered(async () => {
        const { shown, model } = await sceneOf(question);
        if (turns.light !== mine) return null;
        const camera = chosenCamera(shown, question.camera);
        const muted = new Set(question.muted);
        const plane = { ...question, muted };
        const first = await worked(
          'light',
          mine,
          lightLattice(shown, model, camera, { ...plane, places: FIRST_PLACES }),
          (share) => onLight(FIRST_SHARE * share, null),
        );
        if (!first) return null;
        onLight(FIRST_SHARE, first);
        return worked(
          'light',
          mine,
          lightLattice(shown, model, camera, { ...plane, places: ALL_PLACES }),
          (share) => onLight(FIRST_SHARE + (1 - FIRST_SHARE) * share, null),
        );
      });
    },
    async clear(question, onShare) {
      const mine = ++turns.clear;
      return answered(async () => {
        const { shown, model } = await sceneOf(question);
        if (turns.clear !== mine) return null;
        const camera = chosenCamera(shown, question.camera);
        const search = searchClearRegion({ document: shown, model, camera }, { lamp: question.lamp });
        return worked('clear', mine, search, onShare);
      });
    },
  };
}

/** A scene that cannot be asked this (no camera, a lamp that is off) is answered in words. */
async function answered<T>(work: () => Promise<T | null>): Promise<Answered<T> | null> {
  try {
    const found = await work();
    return found === null ? null : { found };
  } catch (error) {
    if (!(error instanceof SceneError)) throw error;
    return { found: null, why: error.problems.map((problem) => problemText(problem)).join(' ') };
  }
}

/** The light model of what is asked about, as the night's readings say it is; remade only as far as something changed. */
function newKnownScene() {
  const memo = newCompileMemo();
  let document: SceneDocument | null = null;
  let beside: BesideFiles = new Map();
  let filesRead: { key: readonly unknown[]; files: SceneFiles } | undefined;
  let corrected: { key: readonly unknown[]; corrections: Corrections | null } | undefined;

  const filesOf = async (scene: SceneDocument): Promise<SceneFiles> => {
    const key = [scene.heads, scene.solids, beside];
    if (!filesRead || !same(filesRead.key, key)) {
      const { files } = await readSceneFiles(scene, async (name) => {
        const bytes = beside.get(name);
        if (!bytes) throw new Error('not among the files that were opened');
        return bytes;
      });
      filesRead = { key, files };
    }
    return filesRead.files;
  };

  const correctionsOf = async (base: SceneDocument): Promise<Corrections | null> => {
    if (!base.readings?.length) return null;
    const { title, notes, setups, cameras, ...matters } = base;
    const key = [cameras?.[0], beside, ...Object.values(matters)];
    if (!corrected || !same(corrected.key, key))
      corrected = { key, corrections: correctionsFrom(base, await filesOf(base)) };
    return corrected.corrections;
  };

  return async (asked: Asked): Promise<{ shown: SceneDocument; model: LightModel }> => {
    document = withChanges(document, asked.changes);
    if (asked.beside) beside = asked.beside;
    const base = document;
    const shown = sceneInSetup(base, asked.setup);
    const files = await filesOf(shown);
    const model = compileScene(shown, files, LIBRARY, memo);
    return { shown, model: correctedModel(model, shown, await correctionsOf(base)) };
  };
}

function same(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.length === other.length && one.every((entry, i) => entry === other[i]);
}
