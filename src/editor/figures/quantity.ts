import { fcFromLx, lxFromFc } from '../../core/units/illuminance.ts';
import type { IlluminanceUnit } from '../../paperwork/exposure-sheet.ts';
import type { LengthSystem } from '../store/editor-state.ts';
import { lengthFromText, lengthText } from './length-text.ts';
import { numberFromText, numberText, withPlainMinus } from './number-text.ts';

/** What a person has set figures to be shown in. */
export interface FigureTaste {
  readonly lengths: LengthSystem;
  readonly unit: IlluminanceUnit;
}

/** A kind of figure: how its value in the document is written for people, and read back from what they type. */
export interface Quantity {
  /** The figure without its unit, as it stands in a field. */
  text(value: number, taste: FigureTaste): string;
  /** Null for what is no such figure. */
  fromText(text: string, taste: FigureTaste): number | null;
  /** What stands after the figure; empty where the text has it already. */
  unit(taste: FigureTaste): string;
  /** The unit in full, for a voice. */
  spoken(taste: FigureTaste): string;
  /** How it may be typed, for who typed something else. */
  readonly example: string;
  /** The nearest figure that a dial would stop at; whole steps where it is left out. */
  nice?(value: number): number;
}

interface PlainUnit {
  readonly unit: string;
  readonly spoken: string;
  readonly example: string;
  /** Other ways to type the unit, in small letters. */
  readonly ways?: readonly string[];
  readonly decimals?: number;
  /** What is shown is the document's value times this. */
  readonly times?: number;
}

function plain({ unit, spoken, example, ways = [], decimals = 2, times = 1 }: PlainUnit): Quantity {
  const units = [unit.toLowerCase(), ...ways].filter((way) => way !== '');
  return {
    text: (value) => withPlainMinus(numberText(value * times, decimals)),
    fromText: (text) => {
      const value = numberFromText(withoutUnit(text, units));
      return value === null ? null : tidy(value / times);
    },
    unit: () => unit,
    spoken: () => spoken,
    example,
  };
}

/** Cuts a unit off the end, or an "f/" off the front, in any case of its letters. */
function withoutUnit(text: string, units: readonly string[]): string {
  const typed = text.trim();
  const small = typed.toLowerCase();
  const way = units.find((unit) => small.endsWith(unit) && small.length > unit.length);
  return way === undefined ? typed : typed.slice(0, -way.length);
}

/** Without the dust of binary fractions that scaling leaves: 0.3, not 0.30000000000000004. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

const length: Quantity = {
  text: (value, { lengths }) => {
    const text = withPlainMinus(lengthText(value, lengths));
    return lengths === 'metric' ? text.replace(/ m$/, '') : text;
  },
  fromText: (text, { lengths }) => {
    const value = lengthFromText(text, lengths);
    return value === null ? null : tidy(value);
  },
  unit: ({ lengths }) => (lengths === 'metric' ? 'm' : ''),
  spoken: ({ lengths }) => (lengths === 'metric' ? 'metres' : 'feet and inches'),
  example: '2.4m, 240cm or 8ft 2in',
};

/** In lux or foot-candles, whichever is shown; either may be typed. */
const illuminance: Quantity = {
  text: (value, { unit }) => threeFigures(unit === 'fc' ? fcFromLx(value) : value),
  fromText: (text, { unit }) => {
    const named = /(lx|lux|fc)\s*$/i.exec(text)?.[1]?.toLowerCase();
    const value = numberFromText(withoutUnit(text, ['lx', 'lux', 'fc']));
    if (value === null) return null;
    return (named ?? unit) === 'fc' ? tidy(lxFromFc(value)) : value;
  },
  unit: ({ unit }) => unit,
  spoken: ({ unit }) => (unit === 'fc' ? 'foot-candles' : 'lux'),
  example: '250lx or 25fc',
};

function threeFigures(value: number): string {
  return Math.abs(value) >= 1000 ? numberText(value, 0) : String(Number(value.toPrecision(4)));
}

/** As a shutter dial has it: 1/50, and in seconds where it is long or no such fraction. */
const shutter: Quantity = {
  text: (value) => {
    const parts = 1 / value;
    const whole = Math.round(parts);
    return value < 0.4 && Math.abs(parts / whole - 1) < 1e-3
      ? `1/${whole}`
      : String(Number(value.toPrecision(4)));
  },
  fromText: (text) => {
    const withUnit = /\d\s*(s|sec|seconds|")\s*$/i.test(text);
    const value = numberFromText(withoutUnit(text, ['seconds', 'sec', 's', '"']));
    // "50" is a fiftieth on one camera and fifty seconds on another.
    if (value === null || (value >= 2 && !withUnit)) return null;
    return value;
  },
  unit: () => 's',
  spoken: () => 'seconds',
  example: '1/50, or 2s for whole seconds',
  nice: (value) => (value < 0.4 ? 1 / Number((1 / value).toPrecision(2)) : Number(value.toPrecision(2))),
};

const fNumber: Quantity = {
  ...plain({ unit: '', spoken: 'f-number', example: 'f/4 or 2.8', decimals: 2 }),
  text: (value) => `f/${numberText(value, 2)}`,
  fromText: (text) => numberFromText(text.trim().replace(/^[ft]\s*\/?\s*/i, '')),
};

export const QUANTITIES = {
  length,
  illuminance,
  shutter,
  fNumber,
  angle: plain({ unit: '°', spoken: 'degrees', example: '30 or 30°', ways: ['degrees', 'deg'], decimals: 1 }),
  percent: plain({
    unit: '%',
    spoken: 'percent',
    example: '50 or 50%',
    ways: ['percent'],
    decimals: 1,
    times: 100,
  }),
  stops: plain({ unit: 'stops', spoken: 'stops', example: '1/3 or 1.5', ways: ['stop'] }),
  kelvin: plain({ unit: 'K', spoken: 'kelvin', example: '5600K', decimals: 0 }),
  mired: plain({
    unit: 'mired',
    spoken: 'mired',
    example: '109 or -78',
    ways: ['mk⁻¹', 'mk-1'],
    decimals: 1,
  }),
  candela: plain({ unit: 'cd', spoken: 'candela', example: '140000', decimals: 1 }),
  lumen: plain({ unit: 'lm', spoken: 'lumens', example: '1600lm', decimals: 1 }),
  watt: plain({ unit: 'W', spoken: 'watts', example: '165W', decimals: 1 }),
  volt: plain({ unit: 'V', spoken: 'volts', example: '230V', decimals: 1 }),
  ampere: plain({ unit: 'A', spoken: 'amps', example: '16A', ways: ['amps', 'amp'] }),
  kVA: plain({ unit: 'kVA', spoken: 'kilovolt-amperes', example: '5kVA' }),
  wattHour: plain({ unit: 'Wh', spoken: 'watt-hours', example: '150Wh', decimals: 1 }),
  kilogram: plain({ unit: 'kg', spoken: 'kilograms', example: '12kg' }),
  squareMetre: plain({ unit: 'm²', spoken: 'square metres', example: '0.15', ways: ['m2'], decimals: 3 }),
  squareMillimetre: plain({ unit: 'mm²', spoken: 'square millimetres', example: '2.5', ways: ['mm2'] }),
  millimetre: plain({ unit: 'mm', spoken: 'millimetres', example: '35mm' }),
  nanometre: plain({ unit: 'nm', spoken: 'nanometres', example: '560nm', decimals: 1 }),
  metrePerSecond: plain({ unit: 'm/s', spoken: 'metres per second', example: '8 m/s', decimals: 1 }),
  second: plain({ unit: 's', spoken: 'seconds', example: '4 or 4s', ways: ['seconds', 'sec'] }),
  minute: plain({ unit: 'min', spoken: 'minutes', example: '5min', ways: ['minutes'], decimals: 1 }),
  share: plain({ unit: '', spoken: 'from 0 to 1', example: '0.25', decimals: 3 }),
  number: plain({ unit: '', spoken: '', example: '12', decimals: 4 }),
  geographic: plain({ unit: '°', spoken: 'degrees', example: '53.4 or -2.1', decimals: 4 }),
} as const satisfies Readonly<Record<string, Quantity>>;

export type QuantityName = keyof typeof QUANTITIES;

/** The figure with its unit, for reading: "2.4 m", "f/4", "30°", "1/50 s", "−3 °" never with a gap before °. */
export function figureText(name: QuantityName, value: number, taste: FigureTaste): string {
  const quantity: Quantity = QUANTITIES[name];
  const unit = quantity.unit(taste);
  const text = quantity.text(value, taste).replace(/^-/, '\u2212');
  if (unit === '') return text;
  return unit === '°' ? `${text}°` : `${text} ${unit}`;
}
