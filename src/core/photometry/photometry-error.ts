/** What kind of fault a photometric file has. Stable: tests, messages and the command line key on it. */
export type PhotometryErrorCode =
  | 'EMPTY'
  | 'TOO_LARGE'
  | 'UNKNOWN_FORMAT'
  | 'LINE_TOO_LONG'
  | 'NO_TILT'
  | 'TILT_SHORT'
  | 'TILT_EXTERNAL_FILE'
  | 'BAD_TILT'
  | 'TOO_FEW_VALUES'
  | 'NOT_A_NUMBER'
  | 'NOT_FINITE'
  | 'BAD_COUNT'
  | 'BAD_TYPE'
  | 'BAD_UNITS'
  | 'BAD_MULTIPLIER'
  | 'BAD_FLUX'
  | 'BAD_SYMMETRY'
  | 'BAD_VERTICAL_RANGE'
  | 'BAD_HORIZONTAL_RANGE'
  | 'ANGLES_NOT_INCREASING'
  | 'NEGATIVE_CANDELA'
  | 'CANDELA_TOO_LARGE'
  | 'NO_LIGHT'
  | 'NO_SUCH_LAMP_SET';

export interface PhotometryFault {
  readonly code: PhotometryErrorCode;
  readonly file: string;
  /** Counted from 1. */
  readonly line: number;
  readonly found: string;
  readonly expected: string;
  /** What the reader of the message can do about it, as a sentence. */
  readonly mend: string;
}

/** A photometric file that cannot be used as light. The message is one line and holds place, fault and mend. */
export class PhotometryError extends Error {
  override readonly name = 'PhotometryError';
  readonly code: PhotometryErrorCode;
  readonly file: string;
  readonly line: number;
  readonly found: string;
  readonly expected: string;
  readonly mend: string;

  constructor(fault: PhotometryFault) {
    const file = printable(fault.file, 120);
    const found = printable(fault.found, 120);
    super(
      `${file}, line ${fault.line}: found ${found}, expected ${fault.expected}. ${fault.mend} [${fault.code}]`,
    );
    this.code = fault.code;
    this.file = file;
    this.line = fault.line;
    this.found = found;
    this.expected = fault.expected;
    this.mend = fault.mend;
  }
}

/** @throws PhotometryError always */
export function refuse(
  place: { readonly file: string; readonly line: number },
  code: PhotometryErrorCode,
  found: string,
  expected: string,
  mend: string,
): never {
  throw new PhotometryError({ file: place.file, line: place.line, code, found, expected, mend });
}

/** File content in quotes, short enough to stand inside a message. */
export function quoted(content: string): string {
  return `"${printable(content, 40)}"`;
}

/** Messages go to terminals and logs, so control characters from a file must not. */
function printable(content: string, maxLength: number): string {
  const head = content.slice(0, maxLength).replace(/[\p{Cc}\u2028\u2029]/gu, ' ');
  return content.length > maxLength ? `${head}…` : head;
}
