import type { Problem } from '../../scene/problems/problem.ts';
import { takeFiles } from '../files/take-files.ts';
import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import type { BesideFiles, ReadingDesk } from '../worker/reading-desk.ts';
import { addMesh } from './add-mesh.ts';
import type { FileBrought } from './documents.ts';
import type { PhotometricFileBrought } from './documents-state.ts';

interface SceneBrought {
  readonly name: string;
  readonly text: string;
  readonly file: File;
  readonly handle: FileSystemFileHandle | null;
  readonly beside: BesideFiles;
}

interface Takers {
  readonly store: EditorStore;
  readonly desk: Pick<ReadingDesk, 'open'>;
  refuse(title: string, problems: readonly Problem[]): void;
  openScene(scene: SceneBrought): Promise<Scene | null>;
  /** Takes files that an unopened scene lacks. */
  bring(files: BesideFiles): Promise<boolean>;
  showPhotometry(files: readonly PhotometricFileBrought[]): void;
}

/**
 * Files chosen or dropped go where they belong: a scene is opened with the files beside it; without one, files complete a
 * scene that lacked them, meshes become solids, and photometric files are shown before they are taken.
 */
export async function bringFiles(brought: readonly FileBrought[], takers: Takers): Promise<void> {
  const taken = await takeFiles(brought.map(({ file }) => file));
  if ('problems' in taken) {
    const title =
      brought.length === 1 ? `${brought[0]!.file.name} was not opened` : 'The files were not opened';
    takers.refuse(title, taken.problems);
    return;
  }
  const { scene, beside } = taken;
  if (scene) {
    const handle = brought.find(({ file }) => file === scene.file)?.handle ?? null;
    await takers.openScene({ ...scene, handle, beside });
    return;
  }
  if (await takers.bring(beside)) return;
  const photometric = [...beside].filter(([name]) => /\.(ies|ldt)$/i.test(name));
  if (photometric.length > 0) takers.showPhotometry(photometric.map(([name, bytes]) => ({ name, bytes })));
  for (const [name, bytes] of beside) {
    if (!/\.(glb|gltf)$/i.test(name)) continue;
    const problems = await addMesh(takers.store, takers.desk, name, bytes);
    if (problems.length > 0) takers.refuse(`${name} was not added`, problems);
  }
}
