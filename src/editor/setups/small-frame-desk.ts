import { addSamples, newFramePart, noisyFrameOf, samplesOf } from '../../core/frame/frame-part.ts';
import { withoutNoise } from '../../core/frame/noise-filter.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import { LIBRARY } from '../../scene/library/library.ts';
import { type MeterReport, startMeteringScene } from '../../scene/meter/meter-scene.ts';
import { SceneError } from '../../scene/problems/problem.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import { sceneInSetup } from '../../scene/setups/scene-in-setup.ts';
import { type FrameCamera, frameCamera } from '../frame/frame-desk.ts';
import type { DocumentChanges } from '../worker/document-changes.ts';
import { type BesideFiles, newKeptSet } from '../worker/kept-set.ts';

/** How a small frame is drawn; samples a pixel. */
export interface FrameSampling {
  readonly width_px: number;
  readonly samples: number;
  readonly seed: number;
}

export const SMALL_FRAME: FrameSampling = { width_px: 128, samples: 16, seed: 1 };

/** Which light a small frame shows: all of it, the sky's alone, or one lamp's alone, by its id. */
export type LightShown =
  | { readonly kind: 'all' }
  | { readonly kind: 'sky' }
  | { readonly kind: 'lamp'; readonly id: string };

/** About the scene in a setup, by a camera. */
export interface SetupQuestion {
  readonly changes: DocumentChanges;
  readonly beside?: BesideFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
}

export interface SmallFrameQuestion extends SetupQuestion {
  readonly light: LightShown;
}

/** A small frame without noise, linear RGB, cd/m². */
export interface SmallFrame {
  readonly width_px: number;
  readonly height_px: number;
  readonly rgb: Float32Array;
  readonly camera: FrameCamera;
}

/** Works in a worker: small frames and readings of setups by the same light, one at a time. */
export interface SmallFrameDesk {
  /** Null where the scene has no camera or cannot be seen, and after `stop`. `progress` hears the share that is done. */
  draw(question: SmallFrameQuestion, progress: (share: number) => void): Promise<SmallFrame | null>;
  /** All light at every mark, as exact as the stop rule's. Null where the scene cannot be metered, and after `stop`. */
  read(question: SetupQuestion): Promise<MeterReport | null>;
  /** Leaves off what is being drawn or read. */
  stop(): void;
}

export function newSmallFrameDesk({ width_px, samples, seed }: FrameSampling = SMALL_FRAME): SmallFrameDesk {
  const kept = newKeptSet();
  let turn = 0;

  /** The scene in its setup and its light as metered; null where it cannot be seen. */
  const sceneLit = async ({ changes, beside, setup }: SetupQuestion) => {
    const document = kept.take(changes, beside);
    const shown = sceneInSetup(document, setup);
    const { files, problems } = await kept.filesOf(shown);
    if (problems.some(({ severity }) => severity === 'error')) return null;
    const model = compileScene(shown, files, LIBRARY, kept.memo);
    const corrections = await kept.correctionsOf(document);
    return { shown, corrections, model: correctedModel(model, shown, corrections) };
  };
  /** Lets a word from outside be heard; it is heard at no other time. */
  const pause = () => new Promise((next) => setTimeout(next));

  return {
    draw: (question, progress) =>
      nullWhereWrong(async () => {
        const mine = ++turn;
        const scene = await sceneLit(question);
        if (!scene) return null;
        const camera = frameCamera(scene.shown, question.camera);
        const height_px = Math.max(1, Math.round(width_px / camera.aspect));
        const part = newFramePart(width_px, height_px, 0, height_px, seed);
        const tracer = newTracer(inLight(scene.model, question.light));
        while (samplesOf(part) < samples) {
          await pause();
          if (mine !== turn) return null;
          addSamples(tracer, camera.lens, part, 1);
          progress(samplesOf(part) / samples);
        }
        const { rgb } = withoutNoise(noisyFrameOf(part));
        return { width_px, height_px, rgb: Float32Array.from(rgb), camera };
      }),

    read: (question) =>
      nullWhereWrong(async () => {
        const mine = ++turn;
        const scene = await sceneLit(question);
        if (!scene) return null;
        const { setup, camera } = question;
        const { shown, model, corrections } = scene;
        const metering = startMeteringScene(shown, model, { setup, camera, light: 'all', corrections });
        while (!metering.done()) {
          await pause();
          if (mine !== turn) return null;
          metering.refine();
        }
        return metering.report();
      }),

    stop() {
      turn++;
    },
  };
}

async function nullWhereWrong<T>(work: () => Promise<T | null>): Promise<T | null> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof SceneError)) throw error;
    return null;
  }
}

/** The model with the other lamps, and the sky where a lamp is looked at, dark. */
function inLight(model: LightModel, light: LightShown): LightModel {
  if (light.kind === 'all') return model;
  const lamps = model.lamps.map((lamp) =>
    light.kind === 'lamp' && lamp.id === light.id ? lamp : { ...lamp, gain: 0 },
  );
  return { ...model, lamps, sky: light.kind === 'sky' ? model.sky : null };
}
