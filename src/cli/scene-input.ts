import { readFile, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { openScene } from '../scene/file/open-scene.ts';
import { MAX_SCENE_BYTES } from '../scene/file/parse-json.ts';
import { MAX_FILE_BYTES, readSceneFiles, type SceneFiles } from '../scene/files/scene-files.ts';
import type { Problem } from '../scene/problems/problem.ts';
import type { SceneDocument } from '../scene/schema/document.ts';
import { UsageError } from './usage-error.ts';

/** A scene file from the disk: its document if it is valid, and every problem. */
export async function openSceneFile(
  path: string,
): Promise<{ document: SceneDocument | null; problems: readonly Problem[] }> {
  const text = await textOf(path);
  return openScene(text);
}

async function textOf(path: string): Promise<string> {
  try {
    const size = await plainFileSize(path);
    if (size > MAX_SCENE_BYTES) {
      throw new UsageError(
        `${path}: ${(size / 1e6).toFixed(1)} MB; a scene is at most ${MAX_SCENE_BYTES / 1e6} MB. ` +
          'Leave meshes and photometric files beside it.',
      );
    }
    return await readFile(path, 'utf8');
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`${path}: ${reason(error)}`);
  }
}

/** The files beside the scene. Names are plain (the schema sees to it), so nothing outside that folder is read. */
export function filesBeside(
  path: string,
  document: SceneDocument,
): Promise<{ files: SceneFiles; problems: readonly Problem[] }> {
  const folder = dirname(path);
  return readSceneFiles(document, async (name) => {
    const file = join(folder, name);
    try {
      const size = await plainFileSize(file);
      if (size > MAX_FILE_BYTES) throw new Error(`${(size / 1e6).toFixed(0)} MB is too large`);
      return await readFile(file);
    } catch (error) {
      throw new Error(reason(error), { cause: error });
    }
  });
}

/** Pipes and devices have no size to be refused by, and may never end. */
async function plainFileSize(path: string): Promise<number> {
  const found = await stat(path);
  if (found.isDirectory()) throw new Error('a folder, not a file');
  if (!found.isFile()) throw new Error('not a plain file');
  return found.size;
}

function reason(error: unknown): string {
  switch ((error as NodeJS.ErrnoException).code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return 'no such file';
    case 'EACCES':
      return 'may not be read';
    default:
      return (error as Error).message;
  }
}
