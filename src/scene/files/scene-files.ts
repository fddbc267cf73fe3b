import { type PhotometricFile, readPhotometricFile } from '../../core/photometry/photometric-file.ts';
import { PhotometryError } from '../../core/photometry/photometry-error.ts';
import { type Problem, problemAt } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type MeshData, readMesh } from './mesh-file.ts';

/** What stands in the files that a scene names, read and checked. Photometric ones by head, meshes by file name. */
export interface SceneFiles {
  readonly photometry: ReadonlyMap<string, PhotometricFile>;
  readonly meshes: ReadonlyMap<string, MeshData>;
}

/** Gives the bytes of a file that stands beside the scene, by its plain name; throws, with a message, if it cannot. */
export type FileReader = (name: string) => Promise<Uint8Array>;

/** A photometric file of a real luminaire is under 1 MB, a mesh of 100 000 triangles under 10. */
export const MAX_FILE_BYTES = 50_000_000;

/** Reads every file that the document names; what cannot be read or used is a problem, with the rest still read. */
export async function readSceneFiles(
  document: SceneDocument,
  read: FileReader,
): Promise<{ readonly files: SceneFiles; readonly problems: readonly Problem[] }> {
  const photometry = new Map<string, PhotometricFile>();
  const meshes = new Map<string, MeshData>();
  const problems: Problem[] = [];

  const bytesOf = async (name: string, at: (string | number)[]): Promise<Uint8Array | undefined> => {
    try {
      const bytes = await read(name);
      if (bytes.byteLength <= MAX_FILE_BYTES) return bytes;
      const found = `"${name}" of ${(bytes.byteLength / 1e6).toFixed(0)} MB`;
      problems.push(
        problemAt(document, at, { found, expected: `a file of at most ${MAX_FILE_BYTES / 1e6} MB` }),
      );
    } catch (error) {
      const found = `"${name}": ${(error as Error).message}`;
      problems.push(problemAt(document, at, { found, expected: 'a file that stands beside the scene' }));
    }
    return undefined;
  };

  for (const [name, head] of Object.entries(document.heads ?? {})) {
    if (head.photometry.kind !== 'file') continue;
    const { file, lampSet } = head.photometry;
    const at = ['heads', name, 'photometry', 'file'];
    let { text } = head.photometry;
    if (text === undefined) {
      const bytes = await bytesOf(file, at);
      if (!bytes) continue;
      text = new TextDecoder('latin1').decode(bytes);
    }
    try {
      const read = readPhotometricFile(file, text, lampSet ?? 0);
      photometry.set(name, read);
      for (const warning of read.warnings) {
        problems.push(
          problemAt(document, at, {
            found: `"${file}": ${warning}`,
            expected: 'a file without oddities; it is used all the same',
            severity: 'warning',
          }),
        );
      }
    } catch (error) {
      if (!(error instanceof PhotometryError)) throw error;
      const { line, found, expected, mend } = error;
      problems.push(
        problemAt(document, at, {
          found: `${found} in line ${line} of "${file}"`,
          expected: `${expected}. ${mend}`,
        }),
      );
    }
  }

  for (const [index, solid] of (document.solids ?? []).entries()) {
    if (solid.shape !== 'mesh' || meshes.has(solid.file)) continue;
    const at = ['solids', index, 'file'];
    const bytes = await bytesOf(solid.file, at);
    if (!bytes) continue;
    try {
      meshes.set(solid.file, await readMesh(bytes));
    } catch (error) {
      const found = `"${solid.file}": ${(error as Error).message}`;
      problems.push(problemAt(document, at, { found, expected: 'a self-contained glTF 2.0 file (.glb)' }));
    }
  }
  return { files: { photometry, meshes }, problems };
}
