import { numberFrom, type Place } from './number-token.ts';
import { refuse } from './photometry-error.ts';

/** LM-63 separates by blanks and commas; EULUMDAT by blanks only, since some writers use the comma as point. */
export type NumberNotation = 'comma-separates' | 'comma-is-point';

const NEWLINE = 10;
const RETURN = 13;
const COMMA = 44;
const NO_BREAK_SPACE = 160;

/** Reads numbers one after the other from free-format text and knows the line of each. One pass, no copies. */
export class NumberReader {
  readonly #file: string;
  readonly #text: string;
  readonly #notation: NumberNotation;
  #at: number;
  #line: number;
  #lineOfLast: number;

  /** @param at offset of the first character to read; @param line its line, counted from 1 */
  constructor(file: string, text: string, at: number, line: number, notation: NumberNotation) {
    this.#file = file;
    this.#text = text;
    this.#notation = notation;
    this.#at = at;
    this.#line = line;
    this.#lineOfLast = line;
  }

  /** The place of the number last read. */
  get place(): Place {
    return { file: this.#file, line: this.#lineOfLast };
  }

  /** @throws PhotometryError TOO_FEW_VALUES at the end of the text, NOT_A_NUMBER, NOT_FINITE */
  next(what: string): number {
    this.#skipSeparators();
    if (this.#at >= this.#text.length) {
      refuse(
        this.place,
        'TOO_FEW_VALUES',
        'the end of the file',
        what,
        'The file is cut short: fetch it again.',
      );
    }
    const start = this.#at;
    while (this.#at < this.#text.length && !this.#isSeparator(this.#text.charCodeAt(this.#at))) this.#at++;
    this.#lineOfLast = this.#line;
    const token = this.#text.slice(start, this.#at);
    return numberFrom(
      this.#notation === 'comma-is-point' ? token.replace(',', '.') : token,
      this.place,
      what,
    );
  }

  /** Whether the next number stands on a later line than the last. */
  nextStartsLine(): boolean {
    this.#skipSeparators();
    return this.#line > this.#lineOfLast;
  }

  /** How many values stand between here and the end, and on which line the last one stands. */
  ahead(): { readonly count: number; readonly lastLine: number } {
    const [at, line] = [this.#at, this.#line];
    let count = 0;
    let lastLine = this.#lineOfLast;
    this.#skipSeparators();
    while (this.#at < this.#text.length) {
      count++;
      lastLine = this.#line;
      while (this.#at < this.#text.length && !this.#isSeparator(this.#text.charCodeAt(this.#at))) this.#at++;
      this.#skipSeparators();
    }
    [this.#at, this.#line] = [at, line];
    return { count, lastLine };
  }

  #skipSeparators(): void {
    for (; this.#at < this.#text.length; this.#at++) {
      const c = this.#text.charCodeAt(this.#at);
      if (!this.#isSeparator(c)) return;
      if (c === NEWLINE || (c === RETURN && this.#text.charCodeAt(this.#at + 1) !== NEWLINE)) this.#line++;
    }
  }

  /** Control characters count as blanks: files from MS-DOS end in one (26). */
  #isSeparator(c: number): boolean {
    return c <= 32 || c === NO_BREAK_SPACE || (c === COMMA && this.#notation === 'comma-separates');
  }
}
