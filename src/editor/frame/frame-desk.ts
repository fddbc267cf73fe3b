import { aimThrough, newCameraRay, type ThinLens } from '../../core/camera/thin-lens.ts';
import { zeroOf } from '../../core/exposure/zero.ts';
import {
  addSamples,
  type FramePart,
  meanRgb,
  newFramePart,
  noisyFrameOf,
  rowsOf,
  samplesOf,
  variances,
} from '../../core/frame/frame-part.ts';
import { withoutNoise } from '../../core/frame/noise-filter.ts';
import { readSpot, type SpotReading } from '../../core/frame/spot-reading.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { luminanceOfRgb } from '../../core/picture/linear-rgb.ts';
import { newTracer, type Tracer } from '../../core/transport/tracer.ts';
import { rendererLimits } from '../../preview/renderer/limits.ts';
import { type PreviewScene, previewScene } from '../../preview/renderer/preview-scene.ts';
import {
  aspectOf,
  calibrationOf,
  chosenCamera,
  DEFAULT_WHITE_BALANCE_K,
  exposureOf,
  lensOf,
} from '../../scene/camera/scene-camera.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import { LIBRARY } from '../../scene/library/library.ts';
import { type Problem, SceneError } from '../../scene/problems/problem.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import type { Corrections } from '../../scene/readings/corrections.ts';
import type { Monochrome } from '../../scene/schema/camera.ts';
import { sceneInSetup } from '../../scene/setups/scene-in-setup.ts';
import type { DocumentChanges } from '../worker/document-changes.ts';
import { type BesideFiles, newKeptSet } from '../worker/kept-set.ts';
import { type SentScene, sentScene } from './sent-scene.ts';

export interface FrameQuestion {
  readonly changes: DocumentChanges;
  readonly beside?: BesideFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  /** Whether what the graphics card takes is wanted too. */
  readonly drawn: boolean;
  /** What the night's readings say; worked out here when left out. */
  readonly corrections?: Corrections | null | undefined;
}

/** A camera as its frame is shown. */
export interface FrameCamera {
  readonly id: string;
  readonly lens: ThinLens;
  readonly aspect: number;
  /** Luminance of middle grey. */
  readonly zero_cd_m2: number;
  readonly whiteBalance_K: number;
  readonly monochrome: Monochrome | undefined;
}

export interface FrameAnswer {
  /** Null where the scene has none, or cannot be seen: `problems` says why. */
  readonly camera: FrameCamera | null;
  /** Without what was in the answer before; null where it was not asked for. */
  readonly scene: SentScene | null;
  /** By place among the gains. */
  readonly lamps: readonly string[];
  /** By place among the owners of the light model: for picking. */
  readonly things: readonly string[];
  /** What this frame leaves out, in sentences. */
  readonly limits: readonly string[];
  readonly problems: readonly Problem[];
}

/** What a spot meter at the camera reads at a place of the frame. */
export interface SpotAnswer extends Pick<SpotReading, 'luminance_cd_m2' | 'stops' | 'uncertainty' | 'parts'> {
  readonly seen: { readonly id: string; readonly name: string; readonly distance_m: number } | null;
}

/** A frame that the processor makes, linear RGB, cd/m². */
export interface ProcessorFrame {
  readonly width_px: number;
  readonly height_px: number;
  readonly rgb: Float32Array;
  /** The same with its noise filtered out: for the eye alone, no figure is taken from it. */
  readonly quietRgb: Float32Array;
  readonly samples: number;
  /** Median relative error of what is not filtered; NaN while unknown. */
  readonly noise: number;
}

/** Works in a worker: makes of the scene what the graphics card takes, and answers what only the core may answer. */
export interface FrameDesk {
  /** Null when a newer question came before it was done. */
  look(question: FrameQuestion): Promise<FrameAnswer | null>;
  /** At a place 0..1 from the left and the top, of the scene that `look` was last asked about. */
  spot(u: number, v: number, error_stops: number): Promise<SpotAnswer | null>;
  /**
   * The frame without graphics, of the scene that `look` was last asked about; until `stop` or the next `look`. Coarse ones come
   * first, so that there is soon something to look at.
   */
  draw(
    width_px: number,
    height_px: number,
    samples: number,
    onStep: (frame: ProcessorFrame) => void,
  ): Promise<void>;
  stop(): void;
}

export function newFrameDesk(): FrameDesk {
  const kept = newKeptSet();
  let turn = 0;
  let drawing = 0;
  let scene: PreviewScene | undefined;
  let seen: { model: LightModel; camera: FrameCamera; tracer?: Tracer } | undefined;

  const tracerOf = (of: NonNullable<typeof seen>): Tracer => {
    of.tracer ??= newTracer(of.model);
    return of.tracer;
  };

  return {
    async look({ changes, beside, setup, camera: id, drawn, corrections: given }) {
      const mine = ++turn;
      drawing++;
      const document = kept.take(changes, beside);
      try {
        const shown = sceneInSetup(document, setup);
        const { files, problems } = await kept.filesOf(shown);
        if (problems.some(({ severity }) => severity === 'error')) return unseen(problems);
        const camera = frameCamera(shown, id);
        const model = compileScene(shown, files, LIBRARY, kept.memo);
        const corrections = given === undefined ? await kept.correctionsOf(document) : given;
        // A newer question may have come in while files were read.
        if (mine !== turn) return null;
        const lit = correctedModel(model, shown, corrections);
        const before = scene;
        if (drawn) scene = previewScene(lit, before);
        seen = { model: lit, camera };
        return {
          camera,
          scene: drawn && scene ? sentScene(scene, before?.textures ?? {}) : null,
          lamps: lit.lamps.map((lamp) => lamp.id),
          things: lit.owners.map((owner) => owner.id),
          limits: rendererLimits(lit),
          problems: [],
        };
      } catch (error) {
        if (!(error instanceof SceneError)) throw error;
        return unseen(error.problems);
      }
    },

    async spot(u, v, error_stops) {
      if (!seen) return null;
      const { camera, model } = seen;
      const ray = newCameraRay();
      aimThrough(camera.lens, u, v, 0, 0, ray);
      const { zero_cd_m2 } = camera;
      const reading = readSpot(tracerOf(seen), camera.lens.position_m, [ray.dx, ray.dy, ray.dz], {
        zero_cd_m2,
        error_stops,
      });
      const { luminance_cd_m2, stops, uncertainty, parts } = reading;
      return { luminance_cd_m2, stops, uncertainty, parts, seen: thingSeen(model, reading.seen) };
    },

    async draw(width_px, height_px, samples, onStep) {
      if (!seen) return;
      const mine = ++drawing;
      const tracer = tracerOf(seen);
      const { lens } = seen.camera;
      const still = () => mine === drawing;
      for (const coarser of [...COARSER, 1]) {
        const [width, height] = [Math.ceil(width_px / coarser), Math.ceil(height_px / coarser)];
        const part = newFramePart(width, height, 0, height, 1);
        const enough = coarser === 1 ? samples : 1;
        while (samplesOf(part) < enough) {
          // The coarsest whatever comes in: a scene that changes all the while would never be seen, else.
          if (coarser === COARSER[0]) addSamples(tracer, lens, part, 1);
          else if (!(await addSampleByRows(tracer, lens, part, still))) return;
          const rgb = Float32Array.from(meanRgb(part));
          const quietRgb = Float32Array.from(withoutNoise(noisyFrameOf(part)).rgb);
          const noise = noiseOf(rgb, variances(part));
          onStep({ width_px: width, height_px: height, rgb, quietRgb, samples: samplesOf(part), noise });
          await new Promise((next) => setTimeout(next));
          if (!still()) return;
        }
      }
    },

    stop() {
      drawing++;
    },
  };
}

/** The first pictures have so much wider pixels. */
const COARSER = [8, 4, 2];

/** So long the desk hears nothing while it draws. */
const DEAF_ms = 40;

/** One more sample; between rows words from outside are heard. False when the sample was left, no longer wanted. */
async function addSampleByRows(
  tracer: Tracer,
  lens: ThinLens,
  part: FramePart,
  still: () => boolean,
): Promise<boolean> {
  let heard_ms = performance.now();
  for (let row = 0; row < part.rows; row++) {
    addSamples(tracer, lens, rowsOf(part, row, 1), 1);
    if (performance.now() - heard_ms < DEAF_ms) continue;
    await new Promise((next) => setTimeout(next));
    if (!still()) return false;
    heard_ms = performance.now();
  }
  part.samples++;
  return true;
}

function unseen(problems: readonly Problem[]): FrameAnswer {
  return { camera: null, scene: null, lamps: [], things: [], limits: [], problems };
}

/** How the frame of one of a document's cameras, or of its first, is shown. @throws SceneError where it has none. */
export function frameCamera(shown: Parameters<typeof chosenCamera>[0], id: string | undefined): FrameCamera {
  const camera = chosenCamera(shown, id);
  return {
    id: camera.id,
    lens: lensOf(camera),
    aspect: aspectOf(camera),
    zero_cd_m2: zeroOf(exposureOf(camera), calibrationOf(shown)).luminance_cd_m2,
    whiteBalance_K: camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K,
    monochrome: camera.monochrome,
  };
}

function thingSeen({ owners, lamps }: LightModel, seen: SpotReading['seen']): SpotAnswer['seen'] {
  if (seen.kind === 'sky') return null;
  const { id, name } = seen.kind === 'lamp' ? lamps[seen.lamp]! : owners[seen.owner]!;
  return { id, name, distance_m: seen.distance_m };
}

/** Median relative error of the pixels that are not black. */
function noiseOf(rgb: Float32Array, variance: Float64Array): number {
  const errors: number[] = [];
  variance.forEach((v, i) => {
    const Y = luminanceOfRgb([rgb[3 * i]!, rgb[3 * i + 1]!, rgb[3 * i + 2]!]);
    if (Y > 0) errors.push(Math.sqrt(v) / Y);
  });
  errors.sort((a, b) => a - b);
  return errors[errors.length >> 1] ?? Number.NaN;
}
