import type { OptionValues } from './command.ts';
import { UsageError } from './usage-error.ts';

/** A number given as an option, or undefined when it was not. Throws UsageError outside the range. */
export function numberOption(
  values: OptionValues,
  name: string,
  low: number,
  high: number,
): number | undefined {
  const text = values[name];
  if (typeof text !== 'string') return undefined;
  const value = Number(text);
  if (text.trim() !== '' && value >= low && value <= high) return value;
  throw new UsageError(`--${name} ${text}: give a number from ${low} to ${high}`);
}

/** Numbers with commas between them, such as a point x,y,z. */
export function numbersOption(values: OptionValues, name: string, form: string): number[] | undefined {
  const text = values[name];
  if (typeof text !== 'string') return undefined;
  const numbers = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (numbers.length === form.split(',').length && numbers.every(Number.isFinite)) return numbers;
  throw new UsageError(`--${name} ${text}: give ${form}, numbers with commas between them`);
}
