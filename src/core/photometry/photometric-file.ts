import { looksLikeEulumdat, readEulumdat } from './eulumdat.ts';
import { usableText } from './file-text.ts';
import { readLm63 } from './lm63.ts';
import { looksLikeLm63 } from './lm63-header.ts';
import type { PhotometricFile } from './photometric-data.ts';
import { refuse } from './photometry-error.ts';

export type { LuminousOpening, PhotometricFile } from './photometric-data.ts';

/**
 * Reads a photometric file of either format, told apart by content and, where that says nothing, by extension.
 * @param name the file's name, for messages
 * @param text decoded as UTF-8 or latin-1: everything that counts is ASCII
 * @param lampSet which alternative lamp set of a EULUMDAT file, from 0
 * @throws PhotometryError where the file cannot be used as light
 */
export function readPhotometricFile(name: string, text: string, lampSet = 0): PhotometricFile {
  const bare = usableText(name, text);
  if (looksLikeLm63(bare)) return readLm63(name, bare);
  if (looksLikeEulumdat(bare)) return readEulumdat(name, bare, lampSet);
  const extension = /\.[^.]*$/.exec(name)?.[0].toLowerCase();
  if (extension === '.ies') return readLm63(name, bare);
  if (extension === '.ldt') return readEulumdat(name, bare, lampSet);
  refuse(
    { file: name, line: 1 },
    'UNKNOWN_FORMAT',
    'neither a TILT= line nor the figures of a EULUMDAT head',
    'an LM-63 (.ies) or EULUMDAT (.ldt) file',
    'Ask the maker of the lamp for one of these.',
  );
}
