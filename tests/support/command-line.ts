import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';
import { main } from '../../src/cli/main.ts';

/** What one call of the command line did. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line within this process. */
export async function keyfall(...args: string[]): Promise<Ran> {
  let out = '';
  let err = '';
  const code = await main(args, {
    out: (text) => {
      out += `${text}\n`;
    },
    err: (text) => {
      err += `${text}\n`;
    },
  });
  return { code, out, err };
}

export const SCENES = fileURLToPath(new URL('../../scenes/', import.meta.url));

/** A folder for the files of one test file, gone when it is done. */
export function temporaryFolder(): {
  path: (name: string) => string;
  file: (name: string, content: string | Uint8Array) => string;
} {
  const folder = mkdtempSync(join(tmpdir(), 'keyfall-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const path = (name: string) => join(folder, name);
  return {
    path,
    file(name, content) {
      writeFileSync(path(name), content);
      return path(name);
    },
  };
}
