import type { ThinLens } from '../../core/camera/thin-lens.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';

/** What a worker thread is started with: its share of the rows of a frame. */
export interface FrameWork {
  readonly model: LightModel;
  readonly lens: ThinLens;
  readonly width_px: number;
  readonly height_px: number;
  readonly seed: number;
  /** First rows of the bands that are this worker's; each is BAND_ROWS high, the last may be less. */
  readonly bands: readonly number[];
}

export const BAND_ROWS = 4;

/** To a worker: take so many samples more, per replicate, in every band. */
export interface MoreSamples {
  readonly samples: number;
}

/** From a worker: a band has its samples. */
export interface BandDone {
  readonly firstRow: number;
  readonly samples: number;
  readonly halves: Float64Array;
  readonly byReplicate: Float64Array;
}
