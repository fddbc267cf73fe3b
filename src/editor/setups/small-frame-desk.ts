import { addSamples, meanRgb, newFramePart, samplesOf, variances } from '../../core/frame/frame-part.ts';
import { withoutNoise } from '../../core/frame/noise-filter.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import { LIBRARY } from '../../scene/library/library.ts';
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

export interface SmallFrameQuestion {
  readonly changes: DocumentChanges;
  readonly beside?: BesideFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  readonly light: LightShown;
}

/** A small frame without noise, linear RGB, cd/m². */
export interface SmallFrame {
  readonly width_px: number;
  readonly height_px: number;
  readonly rgb: Float32Array;
  readonly camera: FrameCamera;
}

/** Works in a worker: small frames by the light of the numbers, one at a time. */
export interface SmallFrameDesk {
  /** Null where the scene has no camera or cannot be seen, and after `stop`. `progress` hears the share that is done. */
  draw(question: SmallFrameQuestion, progress: (share: number) => void): Promise<SmallFrame | null>;
  /** Leaves off what is being drawn. */
  stop(): void;
}

export function newSmallFrameDesk({ width_px, samples, seed }: FrameSampling = SMALL_FRAME): SmallFrameDesk {
  const kept = newKeptSet();
  let turn = 0;

  return {
    async draw({ changes, beside, setup, camera: id, light }, progress) {
      const mine = ++turn;
      const document = kept.take(changes, beside);
      try {
        const shown = sceneInSetup(document, setup);
        const { files, problems } = await kept.filesOf(shown);
        if (problems.some(({ severity }) => severity === 'error')) return null;
        const camera = frameCamera(shown, id);
        const model = compileScene(shown, files, LIBRARY, kept.memo);
        const lit = inLight(correctedModel(model, shown, await kept.correctionsOf(document)), light);
        const height_px = Math.max(1, Math.round(width_px / camera.aspect));
        const part = newFramePart(width_px, height_px, 0, height_px, seed);
        const tracer = newTracer(lit);
        while (samplesOf(part) < samples) {
          // A word from outside is heard only between samples.
          await new Promise((next) => setTimeout(next));
          if (mine !== turn) return null;
          addSamples(tracer, camera.lens, part, 1);
          progress(samplesOf(part) / samples);
        }
        const { rgb } = withoutNoise({
          width_px,
          height_px,
          halves: [meanRgb(part, 0), meanRgb(part, 1)],
          // That of half the samples is twice that of all.
          variance: variances(part).map((ofAll) => 2 * ofAll),
        });
        return { width_px, height_px, rgb: Float32Array.from(rgb), camera };
      } catch (error) {
        if (!(error instanceof SceneError)) throw error;
        return null;
      }
    },

    stop() {
      turn++;
    },
  };
}

/** The model with the other lamps, and the sky where a lamp is looked at, dark. */
function inLight(model: LightModel, light: LightShown): LightModel {
  if (light.kind === 'all') return model;
  const lamps = model.lamps.map((lamp) =>
    light.kind === 'lamp' && lamp.id === light.id ? lamp : { ...lamp, gain: 0 },
  );
  return { ...model, lamps, sky: light.kind === 'sky' ? model.sky : null };
}
