import type { Session } from '../session.ts';
import { openPanel } from '../shell/shell-state.ts';
import { type ActionKeys, keysText } from './document-keys.ts';
import type { ImportKind } from './scene-file.ts';
import { redoSteps, stepsBack, stepsForward, undoSteps } from './steps.ts';

/** Something that can be done with the document as a whole, for menus, keys and lists of commands. */
export interface DocumentAction {
  readonly id: string;
  readonly name: string;
  /** As they are written; empty without. */
  readonly keys: string;
  /** What the page listens for on behalf of the action. */
  readonly combination: ActionKeys | null;
  readonly enabled: () => boolean;
  readonly run: () => void;
}

type Described = Pick<DocumentAction, 'id' | 'name'> & {
  readonly run: () => unknown;
  readonly keys?: ActionKeys;
  readonly enabled?: () => boolean;
  /** Its keys are listened for elsewhere. */
  readonly heard?: 'by the store';
};

export function documentActions(session: Session): readonly DocumentAction[] {
  const { store, documents } = session;
  const withScene = () => store.getState().scene !== null;
  const described: readonly Described[] = [
    {
      id: 'new-scene',
      name: 'New scene',
      run: () => {
        // Where everything is still to be added, and what to begin with is said.
        openPanel('build');
        return documents.newScene();
      },
      keys: { code: 'KeyN', alt: true, shift: true },
    },
    {
      id: 'open-scene',
      name: 'Open…',
      run: () => chooseAndOpen(session, 'scene'),
      keys: { code: 'KeyO', primary: true },
    },
    {
      id: 'kept-scenes',
      name: 'Kept scenes…',
      run: () => documents.showDialog({ kind: 'kept-scenes' }),
    },
    { id: 'open-demo', name: 'Open the demo', run: documents.openDemo },
    {
      id: 'save-scene',
      name: 'Save',
      run: () => documents.save('own file'),
      keys: { code: 'KeyS', primary: true },
      enabled: withScene,
    },
    {
      id: 'save-scene-as',
      name: 'Save as…',
      run: () => documents.save('another file'),
      keys: { code: 'KeyS', primary: true, shift: true },
      enabled: withScene,
    },
    {
      id: 'copy-link',
      name: 'Copy as a link',
      run: () => documents.copyLink(window.location),
      keys: { code: 'KeyL', alt: true, shift: true },
      enabled: withScene,
    },
    {
      id: 'bring-file',
      name: 'Add a photometric file or mesh…',
      run: () => chooseAndOpen(session, 'beside'),
      enabled: withScene,
    },
    {
      id: 'undo',
      name: 'Undo',
      run: () => undoSteps(store, 1),
      keys: { code: 'KeyZ', primary: true },
      heard: 'by the store',
      enabled: () => stepsBack(store).length > 0,
    },
    {
      id: 'redo',
      name: 'Redo',
      run: () => redoSteps(store, 1),
      keys: { code: 'KeyZ', primary: true, shift: true },
      heard: 'by the store',
      enabled: () => stepsForward(store).length > 0,
    },
  ];
  return described.map(({ id, name, run, keys, heard, enabled = () => true }) => ({
    id,
    name,
    keys: keys ? keysText(keys) : '',
    combination: keys && !heard ? keys : null,
    enabled,
    run: () => void run(),
  }));
}

/** By the browser's chooser that lets files be written again; where it has none, by the plain one. */
async function chooseAndOpen({ documents }: Session, kind: ImportKind): Promise<void> {
  try {
    if (await documents.choose(kind)) return;
  } catch (error) {
    documents.say(`Not opened: ${(error as Error).message}`);
    return;
  }
  const chooser = window.document.createElement('input');
  chooser.type = 'file';
  chooser.multiple = true;
  if (kind === 'beside') chooser.accept = '.ies,.ldt,.glb,.gltf';
  chooser.addEventListener('change', () => {
    const brought = [...(chooser.files ?? [])].map((file) => ({ file, handle: null }));
    if (brought.length > 0) void documents.openFiles(brought);
  });
  chooser.click();
}
