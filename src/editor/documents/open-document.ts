import type { Scene } from '../store/editor-state.ts';
import type { BesideFiles } from '../worker/reading-desk.ts';

/** The file on disk that a document was opened from or saved to. */
export interface SceneFile {
  readonly name: string;
  /** How the browser lets it be written again; null where it does not. */
  readonly handle: FileSystemFileHandle | null;
  /** When it was last written as far as this page knows. */
  readonly modified_ms: number | null;
}

/** Whether this tab may keep under the document's own name: not while another tab works on it. */
export type Standing = 'ours' | 'elsewhere' | 'taken';

/** A document as this tab has it. Undo may go back to one that was open before, so there can be several. */
export interface OpenDocument {
  /** Under which it is kept in this browser; null while there is nothing to keep. */
  id: string | null;
  revision: number | null;
  copy: boolean;
  file: SceneFile | null;
  /** The scene as the file has it. */
  saved: Scene | null;
  /** The scene and the files beside it as they were kept last. */
  kept: Scene | null;
  keptBeside: BesideFiles | null;
  /** The scene as it was delivered with the page: not worth keeping. */
  readonly delivered: Scene | null;
  standing: Standing;
}

export function newDocument(known: Partial<OpenDocument> = {}): OpenDocument {
  return {
    id: newId(),
    revision: null,
    copy: false,
    file: null,
    saved: null,
    kept: null,
    keptBeside: null,
    delivered: null,
    standing: 'ours',
    ...known,
  };
}

/** From here on a document of its own, which nobody else knows. */
export function becomeCopy(document: OpenDocument): void {
  document.id = newId();
  document.revision = null;
  document.copy = true;
  document.keptBeside = null;
  document.standing = 'ours';
}

/** 96 random bits: never twice. */
export function newId(): string {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((b) => b.toString(16).padStart(2, '0')).join('');
}

/**
 * Which document each scene belongs to. A scene that comes by an edit belongs to the one that was open; one that undo brings
 * back belongs to the one it was made in.
 */
export class SceneOwners {
  readonly #owners = new WeakMap<Scene, OpenDocument>();
  readonly #documents = new Set<OpenDocument>();
  #current: OpenDocument | null = null;

  own(scene: Scene, document: OpenDocument): void {
    this.#owners.set(scene, document);
    this.#documents.add(document);
  }

  /** The document of this tab that is kept under this id: one that is opened once more stays the same. */
  keptAs(id: string): OpenDocument | undefined {
    return [...this.#documents].find((document) => document.id === id);
  }

  ownerOf(scene: Scene): OpenDocument {
    const known = this.#owners.get(scene);
    const owner = known ?? this.#current ?? newDocument();
    if (!known) this.#owners.set(scene, owner);
    this.#current = owner;
    return owner;
  }
}
