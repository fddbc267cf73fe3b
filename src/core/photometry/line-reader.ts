import type { Place } from './number-token.ts';
import { quoted, refuse } from './photometry-error.ts';

/** LM-63-2002 allows 256 characters and EULUMDAT 78; writers exceed both, but not by this much. */
const MAX_LINE_LENGTH = 8192;

/** Reads a text line by line (LF, CRLF or CR), remembering where it is. One pass. */
export class LineReader {
  readonly #file: string;
  readonly #text: string;
  #at = 0;
  #line = 0;

  constructor(file: string, text: string) {
    this.#file = file;
    this.#text = text;
  }

  /** The place of the line last read. */
  get place(): Place {
    return { file: this.#file, line: Math.max(1, this.#line) };
  }

  /** Offset of the first character not yet read. */
  get offset(): number {
    return this.#at;
  }

  /**
   * The next line without its end, or null after the last.
   * @throws PhotometryError LINE_TOO_LONG
   */
  next(): string | null {
    const start = this.#at;
    if (start >= this.#text.length) return null;
    this.#line++;
    while (this.#at < this.#text.length) {
      const c = this.#text[this.#at++];
      if (c === '\n') return this.#text.slice(start, this.#at - 1);
      if (c === '\r') {
        const end = this.#at - 1;
        if (this.#text[this.#at] === '\n') this.#at++;
        return this.#text.slice(start, end);
      }
      if (this.#at - start > MAX_LINE_LENGTH) {
        refuse(
          this.place,
          'LINE_TOO_LONG',
          `a line beginning ${quoted(this.#text.slice(start, start + 40))}, longer than ${MAX_LINE_LENGTH} characters`,
          `at most ${MAX_LINE_LENGTH} characters before the numbers begin`,
          'Shorten the line, or fetch the file again: it may not be a photometric file.',
        );
      }
    }
    return this.#text.slice(start);
  }
}
