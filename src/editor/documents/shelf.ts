import type { BesideFiles } from '../worker/reading-desk.ts';

/** What is known of a kept scene without opening it. */
export interface KeptScene {
  readonly id: string;
  readonly title: string;
  /** Made because another tab had the scene, or had changed it. */
  readonly copy: boolean;
  /** The file that it was opened from or saved to, by name. */
  readonly fileName: string | null;
  /** When that file was last written as far as this browser knows. */
  readonly fileModified_ms: number | null;
  /** Whether that file holds it as it stands here. */
  readonly saved: boolean;
  readonly changed_ms: number;
  readonly characters: number;
  /** Grows with every state that is kept; who wants to write must know the last one. */
  readonly revision: number;
}

/** A kept scene with all that belongs to it. */
export interface KeptWhole {
  readonly about: KeptScene;
  readonly text: string;
  readonly beside: BesideFiles;
  /** How the browser lets its file be written again, where it can. */
  readonly handle: FileSystemFileHandle | null;
}

export interface ToKeep {
  readonly id: string;
  readonly title: string;
  readonly copy: boolean;
  readonly fileName: string | null;
  readonly fileModified_ms: number | null;
  readonly handle: FileSystemFileHandle | null;
  readonly saved: boolean;
  readonly text: string;
  /** The files beside it; null while they are those that were kept last. */
  readonly beside: BesideFiles | null;
  /** The revision that this state follows; null for a scene that was not kept before. */
  readonly follows: number | null;
}

/**
 * Where scenes are kept in this browser. Every call may fail with an Error: storage can be full, off or forbidden. A
 * state that does not follow the last one kept is not taken (null), so that no tab writes over another's work.
 */
export interface Shelf {
  /** The last changed first. */
  list(): Promise<KeptScene[]>;
  read(id: string): Promise<KeptWhole | null>;
  /** Returns the revision of what was kept, or null where another state was kept in between, or the scene taken away. */
  keep(scene: ToKeep): Promise<number | null>;
  forget(id: string): Promise<void>;
}

/** What a list shows of a scene that is kept now. */
export function aboutOf(scene: ToKeep, revision: number): KeptScene {
  const { text, handle, beside, follows, ...about } = scene;
  return { ...about, changed_ms: Date.now(), characters: text.length, revision };
}
