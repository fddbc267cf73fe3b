import { correctedModel } from '../scene/readings/corrected-model.ts';
import { type Corrections, correctionsFrom } from '../scene/readings/corrections.ts';
import type { OptionValues, Streams } from './command.ts';
import { type OpenedSet, openSet } from './opened-set.ts';
import { filesBeside } from './scene-input.ts';

export const UNCORRECTED_OPTION = {
  type: 'boolean',
  help: 'as planned, whatever the readings of the night say',
} as const;

/** An opened set whose light model is as the readings of the night say. */
export interface CorrectedSet extends OpenedSet {
  /** Null where there are no readings, or they are not to be heard. */
  readonly corrections: Corrections | null;
}

export async function openCorrectedSet(
  path: string,
  values: OptionValues,
  streams: Streams,
): Promise<CorrectedSet> {
  const set = await openSet(path, values, streams);
  if (values.uncorrected || !set.base.readings?.length) return { ...set, corrections: null };
  // Readings belong to the base; a setup may have other heads, and so other files.
  const files = set.base === set.document ? set.files : (await filesBeside(path, set.base)).files;
  const corrections = correctionsFrom(set.base, files);
  return { ...set, corrections, model: correctedModel(set.model, set.document, corrections) };
}
