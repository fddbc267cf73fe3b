import { refuse } from './photometry-error.ts';

const MAX_CHARACTERS = 20_000_000;

/** Most values a table may hold as stored; unfolding a symmetry makes up to four times as many of them. */
export const MAX_TABLE_VALUES = 2_000_000;

/**
 * The text of a photometric file without its byte order mark (as itself or as the three latin-1 letters that a
 * decoder may have made of it).
 * @throws PhotometryError EMPTY, TOO_LARGE
 */
export function usableText(file: string, text: string): string {
  if (text.length > MAX_CHARACTERS) {
    refuse(
      { file, line: 1 },
      'TOO_LARGE',
      `${text.length} characters`,
      `at most ${MAX_CHARACTERS}`,
      'A photometric file is rarely above 1 MB: check that this is one, or thin its angles out.',
    );
  }
  const bare = text.replace(/^(?:\uFEFF|\u00EF\u00BB\u00BF)/, '');
  if (!/\S/.test(bare)) {
    refuse({ file, line: 1 }, 'EMPTY', 'nothing', 'an LM-63 or EULUMDAT file', 'Fetch the file again.');
  }
  return bare;
}
