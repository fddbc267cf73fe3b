import { availableParallelism } from 'node:os';
import type { Worker } from 'node:worker_threads';
import type { ThinLens } from '../../core/camera/thin-lens.ts';
import {
  type FramePart,
  meanRgb,
  newFramePart,
  noisyFrameOf,
  REPLICATES,
  samplesOf,
  variances,
} from '../../core/frame/frame-part.ts';
import { boxMean, withoutNoise } from '../../core/frame/noise-filter.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { luminance } from '../../core/transport/light-bins.ts';
import { BAND_ROWS, type BandDone, type FrameWork, type MoreSamples } from './frame-messages.ts';
import { startFrameThread } from './start-thread.ts';

export interface FrameRequest {
  readonly model: LightModel;
  readonly lens: ThinLens;
  readonly width_px: number;
  readonly height_px: number;
  readonly seed: number;
  /** Exactly so many samples a pixel, or as many as it takes for the median relative error. */
  readonly until: { readonly samples: number } | { readonly error: number };
  /** Pixels darker than this do not count for the median. */
  readonly dark_cd_m2: number;
  /** Whether noise is filtered out, or the bare mean of the samples wanted. */
  readonly filtered: boolean;
  readonly progress: (text: string) => void;
}

export interface RenderedFrame {
  readonly width_px: number;
  readonly height_px: number;
  /** Mean linear RGB, cd/m², three numbers a pixel. */
  readonly rgb: Float64Array;
  /** Samples a pixel. */
  readonly samples: number;
  /** Median over the pixels of standard error over luminance. */
  readonly medianError: number;
}

const FIRST_SAMPLES = 12;
const MOST_SAMPLES = 4096;
/** Filtering is tried once the noise is no more than this over what is wanted: it takes out two thirds and more. */
const WORTH_FILTERING = 4;
/** A pixel's own spread tells little; that of its neighbourhood, so many pixels to each side, tells what is usual there. */
const SPREAD_px = 2;

/** Renders a frame on all cores. The picture does not depend on how many there are. */
export async function renderFrame(request: FrameRequest): Promise<RenderedFrame> {
  const { width_px, height_px, seed, until, progress } = request;
  const frame = newFramePart(width_px, height_px, 0, height_px, seed);
  const workers = startWorkers(request);
  const bands = Math.ceil(height_px / BAND_ROWS);
  try {
    for (let wanted = firstPass(until); ; ) {
      const each = Math.ceil(wanted / REPLICATES);
      await pass(workers, frame, each - frame.samples, (done) =>
        progress(`${REPLICATES * each} samples a pixel: ${Math.round((100 * done) / bands)} %`),
      );
      frame.samples = each;
      const enough = 'samples' in until || wanted >= MOST_SAMPLES;
      let rendered = bare(frame, request.dark_cd_m2);
      const limit = 'error' in until ? until.error : 0;
      if (request.filtered && (enough || rendered.medianError < WORTH_FILTERING * limit)) {
        rendered = quiet(frame, request);
      }
      progress(
        `${samplesOf(frame)} samples a pixel, median error ${(100 * rendered.medianError).toFixed(1)} %`,
      );
      if (enough || rendered.medianError <= limit) return rendered;
      wanted = Math.min(MOST_SAMPLES, stillNeeded(samplesOf(frame), rendered.medianError / limit));
    }
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}

/** Noise falls with the root of the samples; no more than twice as many on the word of one pass. */
function stillNeeded(samples: number, tooNoisy: number): number {
  return Math.max(samples + REPLICATES, samples * Math.min(2, tooNoisy ** 2));
}

function firstPass(until: FrameRequest['until']): number {
  return 'samples' in until ? until.samples : FIRST_SAMPLES;
}

function startWorkers({ model, lens, width_px, height_px, seed }: FrameRequest): Worker[] {
  const bands = Array.from({ length: Math.ceil(height_px / BAND_ROWS) }, (_, i) => i * BAND_ROWS);
  const count = Math.min(bands.length, availableParallelism());
  return Array.from({ length: count }, (_, w) => {
    const work: FrameWork = {
      model,
      lens,
      width_px,
      height_px,
      seed,
      bands: bands.filter((_, i) => i % count === w),
    };
    return startFrameThread({ workerData: work });
  });
}

/** Has every worker take `samples` more and gathers their sums. */
async function pass(
  workers: readonly Worker[],
  frame: FramePart,
  samples: number,
  done: (bands: number) => void,
): Promise<void> {
  let finished = 0;
  const rowsOf = ({ byReplicate }: BandDone) => byReplicate.length / REPLICATES / frame.width_px;
  await Promise.all(
    workers.map(
      (worker) =>
        new Promise<void>((resolve, reject) => {
          let rows = 0;
          const expected = rowsOfWorker(workers, worker, frame.height_px);
          const take = (band: BandDone) => {
            frame.halves.set(band.halves, 6 * frame.width_px * band.firstRow);
            frame.byReplicate.set(band.byReplicate, REPLICATES * frame.width_px * band.firstRow);
            done(++finished);
            rows += rowsOf(band);
            if (rows < expected) return;
            worker.off('message', take);
            worker.off('error', reject);
            resolve();
          };
          worker.on('message', take);
          worker.on('error', reject);
          const more: MoreSamples = { samples };
          worker.postMessage(more);
        }),
    ),
  );
}

function rowsOfWorker(workers: readonly Worker[], worker: Worker, height_px: number): number {
  const which = workers.indexOf(worker);
  let rows = 0;
  for (let first = which * BAND_ROWS; first < height_px; first += workers.length * BAND_ROWS) {
    rows += Math.min(BAND_ROWS, height_px - first);
  }
  return rows;
}

function bare(frame: FramePart, dark_cd_m2: number): RenderedFrame {
  const { width_px, height_px } = frame;
  const rgb = meanRgb(frame);
  const errors = boxMean(variances(frame), width_px, height_px, SPREAD_px).map(Math.sqrt);
  return {
    width_px,
    height_px,
    rgb,
    samples: samplesOf(frame),
    medianError: medianRelative(errors, rgb, dark_cd_m2),
  };
}

function quiet(frame: FramePart, { dark_cd_m2, progress }: FrameRequest): RenderedFrame {
  const { width_px, height_px } = frame;
  const { rgb, error } = withoutNoise(noisyFrameOf(frame), (share) =>
    progress(`taking out noise: ${Math.round(100 * share)} %`),
  );
  const samples = samplesOf(frame);
  return { width_px, height_px, rgb, samples, medianError: medianRelative(error, rgb, dark_cd_m2) };
}

function medianRelative(errors: Float64Array, rgb: Float64Array, dark_cd_m2: number): number {
  const relative = [...errors].flatMap((error, i) => {
    const mean = luminance(rgb[3 * i]!, rgb[3 * i + 1]!, rgb[3 * i + 2]!);
    return mean > dark_cd_m2 ? [error / mean] : [];
  });
  relative.sort((a, b) => a - b);
  return relative[relative.length >> 1] ?? 0;
}
