import demoText from '../../scenes/night-quay.json?raw';
import type { Problem } from '../scene/problems/problem.ts';
import { autosave } from './files/autosave.ts';
import { readKeptScene } from './files/kept-scene.ts';
import { problem, takeFiles } from './files/take-files.ts';
import type { Scene } from './store/editor-state.ts';
import { createEditorStore, type EditorStore } from './store/editor-store.ts';
import { endGesture } from './store/edits.ts';
import { listenForUndoKeys } from './store/keys.ts';
import { keepPreferences } from './store/preferences.ts';
import { keepReading } from './worker/keep-reading.ts';
import type { BesideFiles } from './worker/reading-desk.ts';
import { startWorkerDesk } from './worker/worker-desk.ts';

/** One person at one page: the store, the workers that read the meter for it, and how scenes come in. */
export interface Session {
  readonly store: EditorStore;
  openFiles(files: readonly File[]): Promise<void>;
  openDemo(): Promise<void>;
  /** Fresh workers in place of one that failed. */
  restartReading(): void;
}

export function startSession(): Session {
  const store = createEditorStore();
  let desks = startDesks(store);
  let demo: Scene | undefined;
  /** A scene that opens as soon as the files it names are brought. */
  let waiting: { name: string; text: string; beside: BesideFiles } | undefined;

  const show = (scene: Scene, warnings: readonly Problem[]) => {
    endGesture(store);
    store.setState({
      scene,
      openings: store.getState().openings + 1,
      warnings,
      camera: undefined,
      setup: undefined,
      step: '',
      chosen: scene.document.lamps?.slice(0, 1).map(({ id }) => id) ?? [],
      lamp: scene.document.lamps?.[0]?.id,
      mark: undefined,
      muted: new Set(),
      refusedEdit: null,
      refusedFile: null,
    });
  };
  const refuse = (title: string, problems: readonly Problem[]) => {
    store.setState({ refusedFile: { title, problems } });
  };

  /** The last good scene stays when this one does not open. */
  const open = async (name: string, text: string, beside: BesideFiles): Promise<Scene | undefined> => {
    try {
      const { document, problems, missing } = await desks.quick.open(text, beside);
      waiting = missing.length > 0 ? { name, text, beside } : undefined;
      if (document) {
        const scene = { document, beside };
        show(scene, problems);
        return scene;
      }
      refuse(`${name} was not opened`, problems);
    } catch (error) {
      refuse(`${name} was not opened`, [
        problem((error as Error).message, 'a scene that this page can work out'),
      ]);
    }
    return undefined;
  };

  const session: Session = {
    store,
    async openFiles(files) {
      const taken = await takeFiles(files);
      if ('problems' in taken) {
        refuse(
          files.length === 1 ? `${files[0]!.name} was not opened` : 'The files were not opened',
          taken.problems,
        );
      } else if (taken.scene) {
        await open(taken.scene.name, taken.scene.text, taken.beside);
      } else if (waiting) {
        await open(waiting.name, waiting.text, new Map([...waiting.beside, ...taken.beside]));
      } else if (taken.beside.size > 0) {
        const names = [...taken.beside.keys()].map((name) => `"${name}"`).join(', ');
        refuse('No scene among the files', [
          problem(names.slice(0, 200), 'a scene (.json) opened together with them'),
        ]);
      }
    },
    async openDemo() {
      if (demo) show(demo, []);
      else demo = await open('The demo', demoText, new Map());
    },
    restartReading() {
      desks.close();
      store.setState({ readingFailure: null });
      desks = startDesks(store);
      if (!store.getState().scene) void session.openDemo();
    },
  };

  const start = async () => {
    const kept = readKeptScene();
    const restored = kept !== null && (await open('The scene of your last visit', kept, new Map()));
    if (!restored) {
      // What kept it from opening stays in sight, and the files that it lacks may still be brought.
      const { refusedFile } = store.getState();
      const lacking = waiting;
      await session.openDemo();
      waiting = lacking;
      if (refusedFile) store.setState({ refusedFile });
    }
    autosave(store, (scene) => scene === demo);
  };
  void start();
  listenForUndoKeys(store);
  keepPreferences(store);
  return session;
}

function startDesks(store: EditorStore) {
  const quick = startWorkerDesk();
  const thorough = startWorkerDesk();
  const stopReading = keepReading(store, quick, thorough);
  return {
    quick,
    close: () => {
      stopReading();
      quick.close();
      thorough.close();
    },
  };
}
