import { parentPort, workerData } from 'node:worker_threads';
import { addSamples, newFramePart } from '../../core/frame/frame-part.ts';
import { newTracer } from '../../core/transport/tracer.ts';
import { BAND_ROWS, type BandDone, type FrameWork, type MoreSamples } from './frame-messages.ts';

/** A thread that renders bands of a frame. */
const { model, lens, width_px, height_px, seed, bands } = workerData as FrameWork;
const tracer = newTracer(model);
const parts = bands.map((firstRow) =>
  newFramePart(width_px, height_px, firstRow, Math.min(BAND_ROWS, height_px - firstRow), seed),
);

parentPort?.on('message', ({ samples }: MoreSamples) => {
  for (const part of parts) {
    addSamples(tracer, lens, part, samples);
    const done: BandDone = {
      firstRow: part.firstRow,
      samples: part.samples,
      halves: part.halves,
      byReplicate: part.byReplicate,
    };
    parentPort?.postMessage(done);
  }
});
