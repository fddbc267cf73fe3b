import { saveScene } from '../../scene/file/save-scene.ts';
import type { Scene } from '../store/editor-state.ts';
import { meshNames } from './mesh-names.ts';
import type { OpenDocument, SceneFile } from './open-document.ts';
import { chooseWhereToSave, downloadText, fileNameOf, writeFile } from './scene-file.ts';

/** How a save ended, with what to tell the person. */
export type Saved =
  | { readonly file: SceneFile; readonly words: string }
  | { readonly ask: 'file-changed'; readonly fileName: string }
  | { readonly words: string }
  | 'cancelled';

/**
 * Saves to the document's own file where there is one and the browser can write it, else where the person says, else as a
 * download. Never writes over a file that something else has written since, unless that was asked for.
 */
export async function saveToFile(
  scene: Scene,
  document: OpenDocument,
  how: 'own file' | 'another file' | 'over the changed file',
): Promise<Saved> {
  const text = saveScene(scene.document);
  const suggested = document.file?.name ?? fileNameOf(scene.document.title);
  try {
    const own = how === 'another file' ? null : document.file?.handle;
    const handle = own ?? (await chooseWhereToSave(suggested));
    if (handle === null) return 'cancelled';
    if (handle === undefined) {
      downloadText(suggested, text);
      const file = { name: suggested, handle: null, modified_ms: null };
      return { file, words: `Saved as ${suggested} where this browser puts downloads.${withMeshes(scene)}` };
    }
    const known_ms = own && how === 'own file' ? (document.file?.modified_ms ?? null) : null;
    const written = await writeFile(handle, text, known_ms);
    if (written === 'changed on disk') return { ask: 'file-changed', fileName: handle.name };
    if (written === 'not permitted')
      return {
        words: `Not saved: the browser was not allowed to write ${handle.name}. Save it as another file.`,
      };
    return { file: written.file, words: `Saved to ${handle.name}.${withMeshes(scene)}` };
  } catch (error) {
    return { words: `Not saved: ${(error as Error).message || 'the file could not be written'}` };
  }
}

/** Meshes stand in files of their own, which have to stay with the scene's. */
function withMeshes({ document }: Scene): string {
  const names = meshNames(document);
  return names.length === 0 ? '' : ` Keep ${names.join(', ')} beside it.`;
}
