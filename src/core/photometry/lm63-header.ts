import { LineReader } from './line-reader.ts';
import type { PhotometricFile } from './photometric-data.ts';
import { quoted, refuse } from './photometry-error.ts';

export type Lm63Edition = NonNullable<PhotometricFile['edition']>;

const EDITIONS: readonly Lm63Edition[] = [1986, 1991, 1995, 2002, 2019];

export interface Lm63Header {
  readonly edition: Lm63Edition;
  readonly keywords: ReadonlyMap<string, string>;
  readonly tilt: 'NONE' | 'INCLUDE';
  /** Where the numbers begin. */
  readonly offset: number;
  readonly line: number;
  readonly warnings: readonly string[];
}

const TILT_LINE = /^\s*TILT\s*=(.*)$/i;
const KEYWORD_LINE = /^\s*\[([^\]]*)\](.*)$/;
const NUMBERS_ONLY = /^[\s,\d.+eE-]+$/;

/** True where a text opens as LM-63 does or holds a TILT line. */
export function looksLikeLm63(text: string): boolean {
  return /^\s*IES(?:NA)?(?::LM-63|91|86)/i.test(text) || /^[ \t]*TILT[ \t]*=/im.test(text);
}

/**
 * Everything before the numbers: edition, keywords, TILT.
 * @throws PhotometryError NO_TILT, TILT_EXTERNAL_FILE, LINE_TOO_LONG
 */
export function readLm63Header(file: string, text: string): Lm63Header {
  const lines = new LineReader(file, text);
  const keywords = new Map<string, string>();
  const warnings: string[] = [];
  let edition: Lm63Edition | null = null;
  let lastKeyword = 'LABEL';
  let firstNumbersLine: number | null = null;

  for (let line = lines.next(); line !== null; line = lines.next()) {
    const tilt = TILT_LINE.exec(line)?.[1]?.trim();
    if (tilt) {
      return {
        edition: edition ?? 1986,
        keywords,
        tilt: tiltKind(tilt, lines),
        offset: lines.offset,
        line: lines.place.line + 1,
        warnings,
      };
    }
    if (line.trim() === '') continue;
    if (edition === null) {
      edition = editionOf(line, warnings);
      if (edition !== null) continue;
      edition = 1986;
    }
    if (NUMBERS_ONLY.test(line) && /\d/.test(line)) firstNumbersLine ??= lines.place.line;
    lastKeyword = keep(keywords, line, lastKeyword);
  }
  if (firstNumbersLine === null) {
    return refuse(
      lines.place,
      'NO_TILT',
      'the end of the file',
      'a line that begins TILT=',
      'This is not LM-63, or it is cut short: fetch the file again.',
    );
  }
  return refuse(
    { file, line: firstNumbersLine },
    'NO_TILT',
    'numbers',
    'a line that begins TILT= before them',
    'Put the line TILT=NONE before the numbers.',
  );
}

/** The edition an identification line names; null for any other line, which makes the file one of 1986. */
function editionOf(line: string, warnings: string[]): Lm63Edition | null {
  const named = /^\s*IES(?:NA)?(?::LM-63-(\d{4})|(91|86))/i.exec(line);
  if (!named) {
    if (!/^\s*IES(?:NA)?:LM-63/i.test(line)) return null;
    warnings.push('the first line names no edition of LM-63; read as 2002');
    return 2002;
  }
  const year = named[1] === undefined ? 1900 + Number(named[2]) : Number(named[1]);
  const edition = EDITIONS.findLast((known) => known <= year) ?? 1986;
  if (edition !== year) warnings.push(`LM-63-${year} is not an edition known here; read as ${edition}`);
  return edition;
}

/** Stores a keyword or label line and returns the keyword that a [MORE] line would continue. */
function keep(keywords: Map<string, string>, line: string, lastKeyword: string): string {
  const [, bracketed, rest] = KEYWORD_LINE.exec(line) ?? [];
  const named = bracketed?.trim().toUpperCase() ?? 'LABEL';
  const keyword = named === 'MORE' ? lastKeyword : named;
  const value = (rest ?? line).trim();
  const before = keywords.get(keyword);
  keywords.set(keyword, before === undefined ? value : `${before}\n${value}`);
  return keyword;
}

function tiltKind(value: string, lines: LineReader): 'NONE' | 'INCLUDE' {
  const kind = value.toUpperCase();
  if (kind === 'NONE' || kind === 'INCLUDE') return kind;
  return refuse(
    lines.place,
    'TILT_EXTERNAL_FILE',
    `TILT=${quoted(value)}, the name of another file`,
    'TILT=NONE or TILT=INCLUDE',
    'Other files are never opened: copy the tilt table in under TILT=INCLUDE, or write TILT=NONE.',
  );
}

const RADIOMETRIC = /\b[mµu]?W\s*\/\s*sr\b|watts?\s+per\s+steradian|\bUV-?[ABC]\b|\bradiometric\b/i;

/** Some files carry radiant intensity (W/sr) where candela belong; only their keywords tell. */
export function radiometricWarnings(keywords: ReadonlyMap<string, string>): string[] {
  for (const [keyword, value] of keywords) {
    if (RADIOMETRIC.test(value)) {
      return [
        `[${keyword}] ${quoted(value)} says that the values are radiant power, not candela: do not use them as light`,
      ];
    }
  }
  return [];
}
