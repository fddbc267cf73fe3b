import { browserShelf } from './documents/browser-shelf.ts';
import { listenForDocumentKeys } from './documents/document-keys.ts';
import { createDocuments, type Documents } from './documents/documents.ts';
import { isSceneLink } from './documents/scene-link.ts';
import { browserHolds } from './documents/tab-holds.ts';
import { firstPicture } from './frame/first-picture.ts';
import { frameStoreOf } from './frame/use-frame.ts';
import { createEditorStore, type EditorStore } from './store/editor-store.ts';
import { listenForUndoKeys } from './store/keys.ts';
import { keepPreferences } from './store/preferences.ts';
import { keepReading } from './worker/keep-reading.ts';
import { startWorkerDesk, type WorkerDesk, workerDeskWhenAsked } from './worker/worker-desk.ts';

/** One person at one page: the store, the workers that read the meter for it, and the documents. */
export interface Session {
  readonly store: EditorStore;
  readonly documents: Documents;
  /** Fresh workers in place of one that failed. */
  restartReading(): void;
}

export function startSession(firstDesk: WorkerDesk): Session {
  const store = createEditorStore();
  let desks = readAt(firstDesk, store);
  const documents = createDocuments({
    store,
    desk: () => desks.quick,
    shelf: browserShelf(),
    holds: browserHolds(),
    copyText: (text) => navigator.clipboard.writeText(text),
  });

  const session: Session = {
    store,
    documents,
    restartReading() {
      desks.close();
      store.setState({ readingFailure: null });
      desks = readAt(startWorkerDesk(), store);
      if (!store.getState().scene) void documents.openDemo();
    },
  };

  void startDocuments(documents);
  listenForUndoKeys(store);
  listenForDocumentKeys(session);
  keepPreferences(store);
  return session;
}

async function startDocuments(documents: Documents): Promise<void> {
  /** Loaded again, the page shows what became of the scene in the link, not the link's again. */
  const forgetLink = () => history.replaceState(null, '', location.pathname + location.search);
  window.addEventListener('hashchange', async () => {
    if (!isSceneLink(location.hash)) return;
    const { hash } = location;
    forgetLink();
    await documents.openLink(hash);
  });
  window.addEventListener('beforeunload', (event) => {
    void documents.flush();
    if (documents.unkept()) event.preventDefault();
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void documents.flush();
  });
  await documents.start(location);
  if (isSceneLink(location.hash)) forgetLink();
}

function readAt(quick: WorkerDesk, store: EditorStore) {
  const thorough = workerDeskWhenAsked();
  const stopReading = keepReading(store, quick, thorough, firstPicture(frameStoreOf(store)));
  return {
    quick,
    close: () => {
      stopReading();
      quick.close();
      thorough.close();
    },
  };
}
