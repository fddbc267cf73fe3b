import { thirdsText } from '../../core/exposure/thirds.ts';
import { miredShift } from '../../core/spectra/mired.ts';
import { type IlluminanceUnit, readingText, significant } from '../../paperwork/exposure-sheet.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { PlacedNeedle } from './rule-layout.ts';

/** Thirds of a stop with their word: "−0⅓ stop", "+1 stop", "0 stops". */
export function stopsWords(stops: number): string {
  const text = thirdsText(stops);
  return `${text} ${/^[+\u2212](0[⅓⅔]|1)$/.test(text) ? 'stop' : 'stops'}`;
}

/** A ratio as it is spoken, and in stops: "4.6 : 1, 2⅓ stops". */
export function ratioWords(ratio: number): string {
  return `${significant(Number(ratio.toPrecision(2)))} : 1, ${stopsWords(Math.log2(ratio))}`;
}

/** Common practice, no source: a tint is just visible from 20 mired, strong at 100. */
const TINTS = [
  { below: 20, words: null },
  { below: 60, words: 'a little' },
  { below: 100, words: 'clearly' },
  { below: Number.POSITIVE_INFINITY, words: 'strongly' },
] as const;

/** The colour of light as the camera will see it: "4000 K, a little warmer than the camera's 4300 K". */
export function colourWords(cct_K: number, whiteBalance_K: number): string {
  const shift = miredShift(whiteBalance_K, cct_K);
  const { words } = TINTS.find(({ below }) => Math.abs(shift) < below)!;
  const kelvin = `${Math.round(cct_K / 50) * 50} K`;
  const camera = `the camera's ${whiteBalance_K} K`;
  if (words === null) return `${kelvin}, neutral at ${camera}`;
  return `${kelvin}, ${words} ${shift > 0 ? 'warmer' : 'cooler'} than ${camera}`;
}

/** What a meter held there shows: "f/4.5", or that it shows nothing. */
export function fNumberWords(fNumber: number): string {
  return fNumber < 0.05 ? 'no f-number' : `f/${fNumber.toFixed(1)}`;
}

export function plusMinusWords(plusMinus_stops: number | null): string {
  return plusMinus_stops === null ? '' : `±${plusMinus_stops.toFixed(1)}`;
}

/** A needle for ears: first what is written beside it, then what is not. */
export function needleWords({ mixed, number, form }: Named, unit: IlluminanceUnit): string {
  const { mark, illuminance_lx, stops, plusMinus_stops } = mixed;
  const reading = `${readingText(illuminance_lx, unit)} ${unit}`;
  const about = plusMinus_stops === null ? '' : `, ±${plusMinus_stops.toFixed(1)} stops`;
  const figures = thirdsText(stops);
  if (form === 'bare') return `${number} ${mark.name} ${figures}, ${reading}${about}`;
  if (form === 'numbers') return `${number} ${figures} ${mark.name}, ${reading}${about}`;
  return `${number} ${mark.name} ${figures} ${reading}${about}`;
}

type Named = Pick<PlacedNeedle, 'mixed' | 'number' | 'form'>;

/** Which lamps are out of what is shown, plainly; empty when none is. */
export function withoutWords(names: readonly { readonly name: string; readonly out: boolean }[]): string {
  const out = names.filter((lamp) => lamp.out).map(({ name }) => name);
  const left = names.filter((lamp) => !lamp.out).map(({ name }) => name);
  if (out.length === 0) return '';
  if (left.length === 0) return 'Without any lamp: sky alone';
  if (left.length === 1 && out.length > 1) return `${left[0]} alone, with the sky`;
  return out.length > 3 ? `Without ${out.length} of ${names.length} lamps` : `Without ${out.join(', ')}`;
}

/** The camera's zero as a meter reads it, with the meter constants: "0 is 165 lx on the dome (C 330), 125 lx flat (C 250)". */
export function zeroWords({ zero, calibration }: MeterReport['exposure'], unit: IlluminanceUnit): string {
  const on = (illuminance_lx: number) => `${readingText(illuminance_lx, unit)} ${unit}`;
  return `0 is ${on(zero.dome_lx)} on the dome (C ${calibration.dome}), ${on(zero.flat_lx)} flat (C ${calibration.flat})`;
}
