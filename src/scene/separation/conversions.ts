import { CONTRAST_FILTERS } from '../../core/monochrome/contrast-filter.ts';
import { outlineSummary } from '../../core/separation/outline-summary.ts';
import { DEFAULT_WHITE_BALANCE_K } from '../camera/scene-camera.ts';
import { monochromeWords, noiseOf_stops, PLAIN } from '../monochrome/monochrome.ts';
import type { Monochrome } from '../schema/camera.ts';
import { type ReadFigure, type ReadSeparation, sightOf } from './read-separation.ts';
import { samplesOf } from './separation-report.ts';

/** How a figure would stand out in a monochrome conversion. */
export interface ConversionRow {
  readonly conversion: string;
  /** Plain luminance, which the others are measured against. */
  readonly plain: boolean;
  readonly share_over_1_stop: number;
  readonly median_stops: number;
  readonly lighter_share: number;
  /** Noise against plain luminance without white balance, in stops. */
  readonly noise_stops: number;
}

/** A mix that leans on red and leaves blue out, as skin likes it. */
const RED_MIX: Monochrome = { weights: [0.8, 0.2, 0] };

/**
 * Plain luminance, the contrast filters, a red mix and what the camera has set, over the light that was read once. In the
 * order of how much stands out.
 */
export function conversionRows(read: ReadSeparation, figure: ReadFigure): ConversionRow[] {
  if (figure.readings.length === 0) return [];
  const { document, camera } = read;
  const asked = [read.monochrome, camera.monochrome].filter((m) => m !== null && m !== undefined);
  const conversions = [PLAIN, ...CONTRAST_FILTERS.map((filter) => ({ filter })), RED_MIX, ...asked];
  const rows = new Map<string, ConversionRow>();
  for (const monochrome of conversions) {
    const conversion = monochromeWords(monochrome);
    if (rows.has(conversion)) continue;
    const stops = samplesOf(figure, sightOf(document, camera, monochrome)).map((sample) => sample.stops);
    rows.set(conversion, {
      conversion,
      plain: monochrome === PLAIN,
      ...outlineSummary(stops),
      noise_stops: noiseOf_stops(monochrome, camera.whiteBalance_K ?? DEFAULT_WHITE_BALANCE_K),
    });
  }
  return [...rows.values()].sort(
    (a, b) => b.share_over_1_stop - a.share_over_1_stop || b.median_stops - a.median_stops,
  );
}
