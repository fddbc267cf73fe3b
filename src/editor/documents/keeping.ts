import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { becomeCopy, newId, type OpenDocument, type SceneOwners } from './open-document.ts';
import type { Shelf } from './shelf.ts';
import { storageTrouble } from './storage-trouble.ts';
import type { TabHolds } from './tab-holds.ts';

/** Between two states that are kept while edits come thick and fast. A crash costs at most what came in between. */
const CALM_ms = 300;

interface KeepingParts {
  readonly store: EditorStore;
  readonly shelf: Shelf;
  readonly holds: TabHolds;
  readonly owners: SceneOwners;
  /** Hears of every state that was kept or could not be, and of every change of standing. */
  readonly changed: () => void;
  readonly calm_ms?: number;
}

export interface Keeping {
  /** Resolves when what is on the page is kept, or could not be. */
  flush(): Promise<void>;
  /** Keeps the document on the page again, because something beside its scene has changed. */
  again(): Promise<void>;
  /** From here on what is on the page is a document of its own. */
  goOnAsCopy(): Promise<void>;
  /** Whether the page holds what the browser does not keep. */
  behind(): boolean;
  stop(): void;
}

/**
 * Keeps the scene in the browser: at once after a change, then as fast as keeping goes; a drag at its end. A document that
 * another tab works on is left alone: the first change here makes a copy of its own.
 */
export function keepScenes(parts: KeepingParts): Keeping {
  const { store, shelf, holds, owners, changed, calm_ms = CALM_ms } = parts;
  let current: OpenDocument | null = null;
  /** What is to be done although the scene has not changed. */
  let asked: 'again' | 'copy' | null = null;

  /** Takes up the document that is on the page now, and lets go of the one before. What another tab has may have come free. */
  const attend = async (document: OpenDocument) => {
    if (document === current && document.standing === 'ours') return;
    if (current?.id && current !== document) holds.letGo(current.id);
    current = document;
    if (document.id === null || document.revision === null) return;
    const free = await holds.take(document.id);
    if (free) document.standing = 'ours';
    else if (document.standing === 'ours') document.standing = 'elsewhere';
    changed();
  };

  const becomeOwn = async (document: OpenDocument) => {
    if (document.id) holds.letGo(document.id);
    becomeCopy(document);
    await holds.take(document.id!);
  };

  const put = (document: OpenDocument, scene: Scene) =>
    shelf.keep({
      id: document.id!,
      title: scene.document.title,
      copy: document.copy,
      fileName: document.file?.name ?? null,
      fileModified_ms: document.file?.modified_ms ?? null,
      handle: document.file?.handle ?? null,
      saved: document.saved === scene,
      text: JSON.stringify(scene.document),
      beside: document.keptBeside === scene.beside ? null : scene.beside,
      follows: document.revision,
    });

  const keepNow = async () => {
    const { scene } = store.getState();
    if (!scene) return;
    const document = owners.ownerOf(scene);
    await attend(document);
    if (asked === 'copy') await becomeOwn(document);
    if (document.kept === scene && asked === null) return;
    asked = null;
    if (document.delivered === scene) {
      await forgetDelivered(document);
      return;
    }
    if (document.standing !== 'ours') await becomeOwn(document);
    document.id ??= newId();
    if (document.revision === null) await holds.take(document.id);
    let revision = await put(document, scene);
    if (revision === null) {
      await becomeOwn(document);
      revision = await put(document, scene);
    }
    Object.assign(document, { revision, kept: scene, keptBeside: scene.beside });
  };

  /** Back at what the page itself brought: nothing of it needs keeping. */
  const forgetDelivered = async (document: OpenDocument) => {
    if (document.id === null) return;
    await shelf.forget(document.id);
    holds.letGo(document.id);
    Object.assign(document, { id: null, revision: null, kept: null, keptBeside: null });
  };

  let running: Promise<void> | null = null;
  let wanted = false;
  let waiting = 0;
  let hurry: (() => void) | null = null;

  const run = async () => {
    while (wanted) {
      wanted = false;
      try {
        await keepNow();
        store.setState({ storageNotice: null });
      } catch (error) {
        store.setState({ storageNotice: storageTrouble(error) });
      }
      changed();
      if (waiting > 0) continue;
      await new Promise<void>((next) => {
        hurry = next;
        setTimeout(next, calm_ms);
      });
      hurry = null;
    }
    running = null;
  };
  const wake = () => {
    wanted = true;
    running ??= run();
  };

  const unsubscribe = store.subscribe((now, before) => {
    if (now.scene !== before.scene && now.scene) owners.ownerOf(now.scene);
    if (now.scene === before.scene && now.gesture === before.gesture) return;
    if (!now.gesture) wake();
  });

  const flush = async () => {
    if (behind() || asked) wake();
    waiting++;
    hurry?.();
    await running;
    waiting--;
  };
  const behind = () => {
    const { scene } = store.getState();
    if (!scene) return false;
    const document = owners.ownerOf(scene);
    return document.kept !== scene && document.delivered !== scene;
  };

  return {
    flush,
    behind,
    async again() {
      asked ??= 'again';
      await flush();
    },
    async goOnAsCopy() {
      asked = 'copy';
      await flush();
    },
    stop: unsubscribe,
  };
}
