import { type IlluminanceUnit, readingText } from '../../paperwork/exposure-sheet.ts';
import type { MixedReading } from '../stop-rule/mixed-reading.ts';
import { plusMinusWords, stopsWords } from '../stop-rule/reading-words.ts';
import type { BuildUpStep } from './build-up.ts';

/** What a lamp gives by itself: "−1⅔ stops, 45 lx". */
export function aloneWords(alone: NonNullable<BuildUpStep['alone']>, unit: IlluminanceUnit): string {
  return lightWords(alone.illuminance_lx, alone.stops, '', unit);
}

/** What all have come to: "+0⅓ stop ±0.5, 209 lx"; ± is known for all lamps together only. */
export function soFarWords(soFar: MixedReading, unit: IlluminanceUnit): string {
  const { illuminance_lx, stops, plusMinus_stops } = soFar;
  return lightWords(illuminance_lx, stops, plusMinusWords(plusMinus_stops), unit);
}

function lightWords(illuminance_lx: number, stops: number, plusMinus: string, unit: IlluminanceUnit): string {
  if (!(illuminance_lx > 0)) return 'no light';
  const about = plusMinus === '' ? '' : ` ${plusMinus}`;
  return `${stopsWords(stops)}${about}, ${readingText(illuminance_lx, unit)} ${unit}`;
}

/** In which order lamps come, said plainly. */
export function orderWords(markName: string | undefined): string {
  return markName === undefined
    ? 'In the order of the scene: there is no mark to go by.'
    : `Brightest at ${markName} first.`;
}
