import { MAX_SCENE_BYTES } from '../../scene/file/parse-json.ts';
import { MAX_FILE_BYTES } from '../../scene/files/scene-files.ts';
import { type Problem, problemAt } from '../../scene/problems/problem.ts';
import type { BesideFiles } from '../worker/reading-desk.ts';

/** What was dropped or chosen, read. */
export interface TakenFiles {
  readonly scene: { readonly name: string; readonly text: string; readonly file: File } | null;
  readonly beside: BesideFiles;
}

const BESIDE_A_SCENE = /\.(ies|ldt|glb|gltf)$/i;
/** More files than any scene names: a whole folder slipped in. */
const MAX_FILES = 200;

/** Sorts files into a scene and what stands beside it. Sizes are checked before a byte is read. */
export async function takeFiles(
  given: readonly File[],
): Promise<TakenFiles | { readonly problems: readonly Problem[] }> {
  const scenes = given.filter((file) => !BESIDE_A_SCENE.test(file.name));
  const refused = [...given.flatMap(tooLarge)];
  if (given.length > MAX_FILES)
    refused.push(problem(`${given.length} files`, `a scene with at most ${MAX_FILES} files`));
  if (scenes.length > 1) {
    const names = scenes.map((file) => `"${file.name}"`).join(', ');
    refused.push(problem(`${scenes.length} scenes at once: ${names}`.slice(0, 300), 'one scene at a time'));
  }
  if (refused.length > 0) return { problems: refused };

  const beside = new Map<string, Uint8Array>();
  const unreadable: Problem[] = [];
  const read = async <T>(file: File, how: (file: File) => Promise<T>): Promise<T | undefined> => {
    try {
      return await how(file);
    } catch {
      unreadable.push(
        problem(`"${file.name}", which could not be read`, 'a file, not a folder, and still there'),
      );
      return undefined;
    }
  };
  for (const file of given) {
    if (!BESIDE_A_SCENE.test(file.name)) continue;
    const bytes = await read(file, async () => new Uint8Array(await file.arrayBuffer()));
    if (bytes) beside.set(file.name, bytes);
  }
  const [sceneFile] = scenes;
  const text = sceneFile && (await read(sceneFile, () => sceneFile.text()));
  if (unreadable.length > 0) return { problems: unreadable };
  return {
    scene: sceneFile && text !== undefined ? { name: sceneFile.name, text, file: sceneFile } : null,
    beside,
  };
}

function tooLarge(file: File): Problem[] {
  const limit = BESIDE_A_SCENE.test(file.name) ? MAX_FILE_BYTES : MAX_SCENE_BYTES;
  if (file.size <= limit) return [];
  return [
    problem(`"${file.name}" of ${megabytes(file.size)}`, `at most ${megabytes(limit)}; it was not read`),
  ];
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`;
}

export function problem(found: string, expected: string): Problem {
  return { ...problemAt(undefined, [], { found, expected }), path: '(files)' };
}
