import { quoted, refuse } from './photometry-error.ts';

/** Where in which file a value stands; lines count from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
}

/**
 * The number a token spells, in decimal or exponent notation. Stricter than `Number`: no hexadecimal, no empty
 * string, no spelled-out infinities. `what` names the quantity for the message.
 * @throws PhotometryError NOT_A_NUMBER, NOT_FINITE
 */
export function numberFrom(token: string, place: Place, what: string): number {
  const value = hasOnlyNumberCharacters(token) ? Number(token) : Number.NaN;
  if (Number.isFinite(value)) return value;
  const overflows = !Number.isNaN(value) || /^[+-]?(?:nan|inf|infinity)$/i.test(token);
  refuse(
    place,
    overflows ? 'NOT_FINITE' : 'NOT_A_NUMBER',
    `${quoted(token)} for ${what}`,
    overflows ? 'a finite number' : 'a number',
    'Put the measured figure there, or fetch the file again: it may be damaged.',
  );
}

/** The digits, signs, point and exponent letter: what stays outside cannot be a number in either format. */
function hasOnlyNumberCharacters(token: string): boolean {
  for (let i = 0; i < token.length; i++) {
    const c = token.charCodeAt(i);
    const digit = c >= 48 && c <= 57;
    const sign = c === 43 || c === 45;
    const exponent = c === 69 || c === 101;
    if (!digit && !sign && !exponent && c !== 46) return false;
  }
  return token.length > 0;
}
