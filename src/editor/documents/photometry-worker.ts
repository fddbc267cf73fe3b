import { expose } from 'comlink';
import { lookAtPhotometry } from './photometry-summary.ts';

/** A file may hold two million figures: they are read aside, so that the page goes on. */
expose({ look: lookAtPhotometry });

export interface PhotometryWorker {
  look: typeof lookAtPhotometry;
}
