import type { Problem } from '../../scene/problems/problem.ts';
import { problem } from '../files/take-files.ts';
import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { endGesture } from '../store/edits.ts';
import type { BesideFiles, ReadingDesk } from '../worker/reading-desk.ts';
import type { OpenDocument, SceneOwners } from './open-document.ts';

/** A scene that is to be opened, and the document that it then belongs to. */
export interface ToOpen {
  /** What messages call it. */
  readonly name: string;
  readonly text: string;
  readonly beside: BesideFiles;
  /** Asked for once the scene is known to be good. */
  readonly document: (scene: Scene) => OpenDocument | Promise<OpenDocument>;
}

export interface Opening {
  /** Opens a scene, or says on the page why not; the last good scene then stays. */
  open(given: ToOpen): Promise<Scene | null>;
  show(scene: Scene, document: OpenDocument, warnings?: readonly Problem[]): Promise<void>;
  refuse(title: string, problems: readonly Problem[]): void;
  /** Opens the scene that lacked files, if some of these are among them. */
  bring(files: BesideFiles): Promise<boolean>;
}

export function openScenes(
  store: EditorStore,
  owners: SceneOwners,
  desk: () => Pick<ReadingDesk, 'open'>,
  beforeShown: () => Promise<void>,
): Opening {
  /** A scene that opens as soon as the files it names are brought. */
  let waiting: { readonly given: ToOpen; readonly missing: readonly string[] } | null = null;

  const show: Opening['show'] = async (scene, document, warnings = []) => {
    endGesture(store);
    await beforeShown();
    owners.own(scene, document);
    store.setState({
      scene,
      openings: store.getState().openings + 1,
      warnings,
      heard: null,
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

  const refuse: Opening['refuse'] = (title, problems) => {
    store.setState({ refusedFile: { title, problems } });
  };

  const open: Opening['open'] = async (given) => {
    const { name, text, beside } = given;
    try {
      const { document, problems, missing } = await desk().open(text, beside);
      waiting = missing.length > 0 ? { given, missing } : null;
      if (document) {
        const scene = { document, beside };
        await show(scene, await given.document(scene), problems);
        return scene;
      }
      refuse(`${name} was not opened`, problems);
    } catch (error) {
      refuse(`${name} was not opened`, [
        problem((error as Error).message, 'a scene that this page can work out'),
      ]);
    }
    return null;
  };

  return {
    open,
    show,
    refuse,
    async bring(files) {
      if (!waiting?.missing.some((name) => files.has(name))) return false;
      const { given } = waiting;
      await open({ ...given, beside: new Map([...given.beside, ...files]) });
      return true;
    },
  };
}
