import { feetAndInchesFromMetres, METRES_PER_FOOT } from '../../core/units/length.ts';
import type { LengthSystem } from '../store/editor-state.ts';
import { NUMBER, numberText, unsigned, withPlainMinus } from './number-text.ts';

const METRES_PER_INCH = METRES_PER_FOOT / 12;
const EIGHTHS = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'] as const;

/**
 * A length as a tape reads it. Metric: to the millimetre under 1 m, to the centimetre under 100 m, else to the decimetre.
 * Imperial: to ⅛ in under a yard, to ½ in up to 100 ft, else to the inch; under ¼ in as decimals.
 */
export function lengthText(length_m: number, system: LengthSystem): string {
  return system === 'metric' ? metricText(length_m) : imperialText(length_m);
}

/** `5.49 m – 9.66 m`; null is infinity. */
export function rangeText(from_m: number, to_m: number | null, system: LengthSystem): string {
  return `${lengthText(from_m, system)} – ${to_m === null ? '∞' : lengthText(to_m, system)}`;
}

function metricText(length_m: number): string {
  const size_m = Math.abs(length_m);
  return `${numberText(length_m, size_m < 1 ? 3 : size_m < 100 ? 2 : 1)} m`;
}

function imperialText(length_m: number): string {
  const size_in = Math.abs(length_m) / METRES_PER_INCH;
  if (size_in < 0.25) return `${numberText(length_m / METRES_PER_INCH, 2)} in`;
  const step_in = size_in < 36 ? 0.125 : size_in < 1200 ? 0.5 : 1;
  const { feet, inches } = feetAndInchesFromMetres(Math.abs(length_m), step_in);
  const whole = Math.floor(inches);
  const eighths = EIGHTHS[Math.round((inches - whole) * 8)]!;
  const over = whole === 0 && eighths ? eighths : `${whole}${eighths}`;
  const size = [feet > 0 ? `${feet} ft` : '', inches > 0 ? `${over} in` : ''].filter(Boolean).join(' ');
  return length_m < 0 ? `\u2212${size}` : size;
}

const UNITS: Readonly<Record<string, { readonly each_m: number; readonly next_m?: number }>> = {
  km: { each_m: 1000 },
  m: { each_m: 1, next_m: 0.01 },
  cm: { each_m: 0.01 },
  mm: { each_m: 0.001 },
  ft: { each_m: METRES_PER_FOOT, next_m: METRES_PER_INCH },
  in: { each_m: METRES_PER_INCH },
};

/** Every way to write a unit, the longer before the shorter that it begins with. */
const WAYS: readonly (readonly [way: string, unit: string])[] = [
  ['kilometres', 'km'],
  ['km', 'km'],
  ['mm', 'mm'],
  ['cm', 'cm'],
  ['metres', 'm'],
  ['metre', 'm'],
  ['m', 'm'],
  ['feet', 'ft'],
  ['foot', 'ft'],
  ['ft', 'ft'],
  ['inches', 'in'],
  ['inch', 'in'],
  ['in', 'in'],
  ["''", 'in'],
  ['"', 'in'],
  ['\u2033', 'in'],
  ['\u201d', 'in'],
  ["'", 'ft'],
  ['\u2032', 'ft'],
  ['\u2019', 'ft'],
];

const PART = new RegExp(`^\\s*(${NUMBER})\\s*(${WAYS.map(([way]) => way).join('|')})?\\.?\\s*-?`, 'i');

/**
 * Metres of a length as people type it: "2.4m", "240 cm", "2m 40", "8ft 2in", "8'2\"", "8'-2 1/2\"", "−1½ ft". A bare number is in
 * the system's unit, metres or feet; after feet it is inches, after metres centimetres. Null for anything else.
 */
export function lengthFromText(text: string, system: LengthSystem): number | null {
  const typed = withPlainMinus(text).trim();
  const sign = /^[+-]/.exec(typed)?.[0] ?? '';
  let rest = typed.slice(sign.length);
  let length_m = 0;
  let finest_m = Number.POSITIVE_INFINITY;
  let bare_m: number | undefined = system === 'metric' ? 1 : METRES_PER_FOOT;
  while (rest !== '') {
    const part = PART.exec(rest);
    const value = part && unsigned(part[1]!);
    if (!part || value === null) return null;
    const way = part[2]?.toLowerCase();
    const unit = way === undefined ? undefined : UNITS[WAYS.find(([written]) => written === way)![1]]!;
    const each_m = unit ? unit.each_m : bare_m;
    // Parts go from the larger unit to the smaller, each once, and nothing follows a number without one.
    if (each_m === undefined || each_m >= finest_m) return null;
    length_m += value * each_m;
    finest_m = each_m;
    bare_m = unit?.next_m;
    if (!unit) finest_m = 0;
    if (part[0].endsWith('-') && part[0].length === rest.length) return null;
    rest = rest.slice(part[0].length);
  }
  if (finest_m === Number.POSITIVE_INFINITY) return null;
  return sign === '-' ? 0 - length_m : length_m;
}
