import { createStore, type StoreApi } from 'zustand/vanilla';
import demoText from '../../../scenes/night-quay.json?raw';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { earlierKeptScene, forgetEarlierKeptScene } from '../files/earlier-kept-scene.ts';
import { problem } from '../files/take-files.ts';
import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import type { ReadingDesk } from '../worker/reading-desk.ts';
import { sameBytes } from './add-mesh.ts';
import { bringFiles } from './bring-files.ts';
import {
  type DocumentDialog,
  type DocumentShown,
  type DocumentsState,
  NO_DOCUMENTS,
} from './documents-state.ts';
import { emptyScene } from './empty-scene.ts';
import { keepScenes } from './keeping.ts';
import { lastOpen, rememberOpen } from './last-open.ts';
import { newDocument, newId, type OpenDocument, SceneOwners } from './open-document.ts';
import { openScenes } from './opening.ts';
import { saveToFile } from './saving.ts';
import { chooseFiles, type ImportKind } from './scene-file.ts';
import { isSceneLink, linkTo, sceneInLink } from './scene-link.ts';
import type { KeptWhole, Shelf } from './shelf.ts';
import { storageTrouble } from './storage-trouble.ts';
import type { TabHolds } from './tab-holds.ts';

/** A file as it was chosen or dropped, with what lets the browser write it again. */
export interface FileBrought {
  readonly file: File;
  readonly handle: FileSystemFileHandle | null;
}

/** All that happens to documents as wholes: how they come, are kept, saved, shared, and told apart between tabs. */
export interface Documents {
  readonly state: StoreApi<DocumentsState>;
  /** Opens what a link, the last visit or an earlier version left; else the demo. */
  start(address: Location): Promise<void>;
  newScene(): Promise<void>;
  openDemo(): Promise<void>;
  openFiles(brought: readonly FileBrought[]): Promise<void>;
  /** Asks for files and opens them. False where this browser has no chooser of its own. */
  choose(kind: ImportKind): Promise<boolean>;
  openKept(id: string): Promise<boolean>;
  forgetKept(id: string): Promise<void>;
  refreshKept(): Promise<void>;
  openLink(fragment: string): Promise<boolean>;
  copyLink(address: Location): Promise<void>;
  save(how: Parameters<typeof saveToFile>[2]): Promise<void>;
  goOnAsCopy(): Promise<void>;
  takeOver(): Promise<void>;
  showDialog(dialog: DocumentDialog | null): void;
  say(notice: string | null): void;
  /** The first photometric file that waits has been taken or refused. */
  photometryDone(): void;
  /** Whether leaving the page now would lose something that the browser could not keep. */
  unkept(): boolean;
  flush(): Promise<void>;
}

export interface DocumentParts {
  readonly store: EditorStore;
  readonly desk: () => Pick<ReadingDesk, 'open'>;
  readonly shelf: Shelf;
  readonly holds: TabHolds;
  /** Puts text on the clipboard; throws where it is not allowed to. */
  readonly copyText: (text: string) => Promise<void>;
}

export function createDocuments({ store, desk, shelf, holds, copyText }: DocumentParts): Documents {
  const state = createStore<DocumentsState>()(() => NO_DOCUMENTS);
  const owners = new SceneOwners();
  // What is on the page is kept before something else takes its place.
  const { open, show, refuse, bring } = openScenes(store, owners, desk, () => keeping.flush());
  let demo: Scene | null = null;

  const say = (notice: string | null) => state.setState({ notice });
  const current = (): { scene: Scene; document: OpenDocument } | null => {
    const { scene } = store.getState();
    return scene && { scene, document: owners.ownerOf(scene) };
  };

  /** Brings what the page says of the document up to date. */
  const tell = () => {
    const open = current();
    const before = state.getState().shown;
    const now = open && shownOf(open.scene, open.document);
    if (now && before && sameShown(before, now)) return;
    state.setState({ shown: now });
    if (now?.id !== before?.id || !before) rememberOpen(now?.id ?? null);
    if (now?.copy && before && !before.copy && before.standing !== 'ours')
      say('This is a copy from here on. Nothing of the other tab was overwritten.');
  };
  const keeping = keepScenes({ store, shelf, holds, owners, changed: tell });
  store.subscribe((now, before) => {
    if (now.scene !== before.scene) tell();
  });
  holds.listen({
    beforeLoss: async (id) => {
      if (current()?.document.id === id) await keeping.flush();
    },
    lost: (id) => {
      const document = current()?.document;
      if (document?.id !== id) return;
      document.standing = 'taken';
      tell();
    },
  });

  /** A kept scene that is the same to the last character: opening a file again makes no second one. */
  const sameKept = async (scene: Scene): Promise<KeptWhole | null> => {
    try {
      const text = JSON.stringify(scene.document);
      const alike = (await shelf.list()).filter(
        ({ title, characters }) => title === scene.document.title && characters === text.length,
      );
      for (const { id } of alike) {
        const whole = await shelf.read(id);
        if (whole?.text === text && sameBeside(whole.beside, scene.beside)) return whole;
      }
    } catch {
      // Storage that does not answer is spoken of when something is to be kept.
    }
    return null;
  };

  /** A scene off the shelf as the document that it is. */
  const documentOf = ({ about, handle }: KeptWhole, scene: Scene): OpenDocument => {
    const { id, revision, copy, fileName, fileModified_ms, saved } = about;
    return Object.assign(owners.keptAs(id) ?? newDocument(), {
      id,
      revision,
      copy,
      file: fileName === null ? null : { name: fileName, handle, modified_ms: fileModified_ms },
      saved: saved ? scene : null,
      kept: scene,
      keptBeside: scene.beside,
    });
  };

  /** A scene that came from outside: one that is kept already, or a new one. */
  const documentFrom = async (scene: Scene): Promise<OpenDocument> => {
    const same = await sameKept(scene);
    return same ? documentOf(same, scene) : newDocument();
  };

  const openWhole = (whole: KeptWhole, called = `“${whole.about.title || 'Untitled scene'}”`) =>
    open({
      name: called,
      text: whole.text,
      beside: whole.beside,
      document: (scene) => documentOf(whole, scene),
    });

  const openKept = async (id: string, called?: string): Promise<boolean> => {
    try {
      const whole = await shelf.read(id);
      if (whole) return (await openWhole(whole, called)) !== null;
      say('This browser no longer keeps that scene.');
    } catch (error) {
      refuse('A kept scene was not opened', [
        problem((error as Error).message || 'storage that does not answer', "this browser's storage"),
      ]);
    }
    return false;
  };

  const openDemo = async () => {
    // Checked by a test, not by every visitor: it stands here before the worker has even been read.
    demo ??= { document: JSON.parse(demoText) as SceneDocument, beside: new Map() };
    await show(demo, newDocument({ id: null, delivered: demo }));
  };

  const openLink = async (fragment: string): Promise<boolean> => {
    const inside = await sceneInLink(fragment);
    if ('fault' in inside) {
      refuse('The scene in the link was not opened', [
        { ...problem(inside.fault, 'the whole link, as it was copied from here'), path: '(link)' },
      ]);
      return false;
    }
    const name = 'The scene in the link';
    return (await open({ name, text: inside.text, beside: new Map(), document: documentFrom })) !== null;
  };

  /** What an earlier version of the page kept goes on the shelf, once. */
  const takeEarlier = async (): Promise<string | null> => {
    const text = earlierKeptScene();
    if (text === null) return null;
    const id = newId();
    const about = {
      id,
      title: titleIn(text),
      copy: false,
      fileName: null,
      fileModified_ms: null,
      handle: null,
    };
    try {
      await shelf.keep({ ...about, saved: false, text, beside: new Map(), follows: null });
    } catch (error) {
      store.setState({ storageNotice: storageTrouble(error) });
      return null;
    }
    forgetEarlierKeptScene();
    return id;
  };

  const openFiles: Documents['openFiles'] = async (brought) => {
    await bringFiles(brought, {
      refuse,
      bring,
      openScene: ({ name, text, file, handle, beside }) =>
        open({
          name,
          text,
          beside,
          document: async (scene) => {
            const from = { name, handle, modified_ms: file.lastModified };
            return Object.assign(await documentFrom(scene), { file: from, saved: scene });
          },
        }),
      showPhotometry: (files) => state.setState(({ brought }) => ({ brought: [...brought, ...files] })),
      store,
      desk: desk(),
    });
  };

  const refreshKept = async () => {
    await keeping.flush();
    state.setState({ kept: await shelf.list().catch(() => []) });
  };

  return {
    state,
    say,
    openDemo,
    openKept,
    openLink,
    flush: keeping.flush,
    unkept: () => keeping.behind() && store.getState().storageNotice !== null,
    goOnAsCopy: keeping.goOnAsCopy,
    showDialog: (dialog) => state.setState({ dialog }),
    photometryDone: () => state.setState(({ brought }) => ({ brought: brought.slice(1) })),

    async start(address) {
      const earlier = await takeEarlier();
      const last = earlier ?? lastOpen();
      if (isSceneLink(address.hash) && (await openLink(address.hash))) return;
      // What kept something from opening stays in sight, and the files that it lacks may still be brought.
      const refusedLink = store.getState().refusedFile;
      if (last !== null && (await openKept(last, 'The scene of your last visit'))) {
        if (refusedLink) store.setState({ refusedFile: refusedLink });
        return;
      }
      const { refusedFile } = store.getState();
      await openDemo();
      if (refusedFile) store.setState({ refusedFile });
    },

    async newScene() {
      await show({ document: emptyScene(), beside: new Map() }, newDocument());
    },

    openFiles,

    async choose(kind) {
      const handles = await chooseFiles(kind);
      if (handles === undefined) return false;
      const brought = (handles ?? []).map(async (handle) => ({ file: await handle.getFile(), handle }));
      if (brought.length > 0) await openFiles(await Promise.all(brought));
      return true;
    },

    refreshKept,

    async forgetKept(id) {
      try {
        await shelf.forget(id);
        // Undo may bring it back: then it is kept anew.
        const document = owners.keptAs(id);
        if (document) Object.assign(document, { revision: null, kept: null, keptBeside: null });
      } catch (error) {
        say((error as Error).message || 'It could not be taken away.');
      }
      await refreshKept();
    },

    async copyLink(address) {
      const { scene } = store.getState();
      if (!scene) return;
      const made = await linkTo(address.href, scene.document);
      if ('fault' in made) return say(made.fault);
      try {
        await copyText(made.link);
        say(
          `Link copied: the whole scene is in it, ${(made.link.length / 1000).toFixed(1)} thousand characters.`,
        );
      } catch {
        state.setState({ dialog: { kind: 'link', link: made.link } });
      }
    },

    async save(how) {
      const open = current();
      if (!open) return;
      const { scene, document } = open;
      const saved = await saveToFile(scene, document, how);
      if (saved === 'cancelled') return;
      if ('ask' in saved) {
        state.setState({ dialog: { kind: 'file-changed', fileName: saved.fileName } });
        return;
      }
      say(saved.words);
      if (!('file' in saved)) return;
      document.file = saved.file;
      document.saved = scene;
      tell();
      if (document.delivered !== scene) await keeping.again();
    },

    async takeOver() {
      const document = current()?.document;
      if (!document?.id) return;
      await holds.takeOver(document.id);
      document.standing = 'ours';
      try {
        const whole = await shelf.read(document.id);
        if (!whole) return;
        await open({
          name: 'The scene of the other tab',
          text: whole.text,
          beside: whole.beside,
          document: (scene) => documentOf(whole, scene),
        });
      } finally {
        tell();
      }
    },
  };
}

function shownOf(scene: Scene, document: OpenDocument): DocumentShown {
  return {
    id: document.id,
    standing: document.standing,
    copy: document.copy,
    fileName: document.file?.name ?? null,
    saved: document.saved === scene,
    kept: document.kept === scene,
    delivered: document.delivered === scene,
  };
}

function sameShown(one: DocumentShown, other: DocumentShown): boolean {
  return (Object.keys(one) as (keyof DocumentShown)[]).every((key) => one[key] === other[key]);
}

function sameBeside(one: Scene['beside'], other: Scene['beside']): boolean {
  if (one.size !== other.size) return false;
  return [...one].every(([name, bytes]) => {
    const there = other.get(name);
    return there !== undefined && sameBytes(bytes, there);
  });
}

/** For the list, whether or not the rest is a scene. */
function titleIn(text: string): string {
  try {
    const { title } = JSON.parse(text) as { title?: unknown };
    return typeof title === 'string' ? title.slice(0, 200) : '';
  } catch {
    return '';
  }
}
