import type { SceneFile } from './open-document.ts';

/** What browsers with access to files offer beyond the common types. */
interface PickerWindow {
  showOpenFilePicker?(options: object): Promise<FileSystemFileHandle[]>;
  showSaveFilePicker?(options: object): Promise<FileSystemFileHandle>;
}
interface AskingHandle {
  requestPermission?(options: { mode: 'readwrite' }): Promise<PermissionState>;
}

const pickers = () => window as PickerWindow;
const SCENE = { 'application/json': ['.json'] };
const BESIDE = { 'application/octet-stream': ['.ies', '.ldt', '.glb', '.gltf'] };
const SCENE_TYPE = { description: 'Scene', accept: SCENE };
const TYPES = {
  scene: { description: 'Scene, with the files beside it', accept: { ...SCENE, ...BESIDE } },
  beside: { description: 'Photometric file or mesh', accept: BESIDE },
};

export type ImportKind = keyof typeof TYPES;

/** What was chosen; null where the person thought better of it, undefined where this browser has no such chooser. */
export async function chooseFiles(kind: ImportKind): Promise<FileSystemFileHandle[] | null | undefined> {
  const { showOpenFilePicker } = pickers();
  if (!showOpenFilePicker) return undefined;
  return unlessCancelled(
    showOpenFilePicker.call(window, { multiple: true, id: 'keyfall', types: [TYPES[kind]] }),
  );
}

export async function chooseWhereToSave(
  suggestedName: string,
): Promise<FileSystemFileHandle | null | undefined> {
  const { showSaveFilePicker } = pickers();
  if (!showSaveFilePicker) return undefined;
  return unlessCancelled(
    showSaveFilePicker.call(window, { suggestedName, id: 'keyfall', types: [SCENE_TYPE] }),
  );
}

async function unlessCancelled<T>(choice: Promise<T>): Promise<T | null> {
  try {
    return await choice;
  } catch (error) {
    if ((error as Error).name === 'AbortError') return null;
    throw error;
  }
}

export type Written = { readonly file: SceneFile } | 'changed on disk' | 'not permitted';

/**
 * Writes the text to a file on disk. `known_ms`, where given, is when the file was last written as far as this page knows:
 * a file that something else has written since is left as it is. Throws where the disk does not take it.
 */
export async function writeFile(
  handle: FileSystemFileHandle,
  text: string,
  known_ms: number | null,
): Promise<Written> {
  const asking = handle as AskingHandle;
  const permission = await asking.requestPermission?.call(handle, { mode: 'readwrite' });
  if (permission !== undefined && permission !== 'granted') return 'not permitted';
  const found_ms = await lastWritten_ms(handle);
  if (known_ms !== null && found_ms !== null && found_ms !== known_ms) return 'changed on disk';
  const stream = await handle.createWritable();
  try {
    await stream.write(text);
  } catch (error) {
    // The file stays as it was: nothing half-written takes its place.
    await stream.abort().catch(() => {});
    throw error;
  }
  await stream.close();
  return { file: { name: handle.name, handle, modified_ms: await lastWritten_ms(handle) } };
}

/** Null for a file that is gone: writing it anew takes nothing from anyone. */
async function lastWritten_ms(handle: FileSystemFileHandle): Promise<number | null> {
  try {
    return (await handle.getFile()).lastModified;
  } catch {
    return null;
  }
}

/** A title as a plain file name: letters and digits of any script, the rest as hyphens. */
export function fileNameOf(title: string, ending = 'json'): string {
  const plain = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return `${plain || 'scene'}.${ending}`;
}

/** Hands the text to the browser as a file to save where it saves downloads. */
export function downloadText(name: string, text: string): void {
  downloadBlob(name, new Blob([text], { type: 'application/json' }));
}

/** The same of any file. */
export function downloadBlob(name: string, blob: Blob): void {
  const url = URL.createObjectURL(blob);
  const link = window.document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser takes the address up after this turn.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
