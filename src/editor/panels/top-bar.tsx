import { useRef } from 'react';
import { downloadScene } from '../files/download.ts';
import { redo, undo } from '../store/edits.ts';
import { useEditor, useHistory, useSession } from '../store/use-editor.ts';

export function TopBar() {
  const session = useSession();
  const { store } = session;
  const document = useEditor((state) => state.scene?.document);
  const notice = useEditor((state) => state.storageNotice);
  const { canUndo, canRedo } = useHistory();
  const chooser = useRef<HTMLInputElement>(null);

  return (
    <header className="top-bar">
      <p className="brand">Keyfall</p>
      <h1>
        <bdi>{document ? document.title || 'Untitled scene' : 'Opening…'}</bdi>
      </h1>
      <div className="bar-buttons">
        <button type="button" onClick={() => undo(store)} disabled={!canUndo}>
          Undo
        </button>
        <button type="button" onClick={() => redo(store)} disabled={!canRedo}>
          Redo
        </button>
        <button type="button" onClick={() => chooser.current?.click()}>
          Open…
        </button>
        <button type="button" onClick={() => document && downloadScene(document)} disabled={!document}>
          Save
        </button>
        <button type="button" onClick={() => void session.openDemo()}>
          Back to the demo
        </button>
      </div>
      <input
        ref={chooser}
        className="out-of-sight"
        type="file"
        multiple
        tabIndex={-1}
        aria-label="Scene file and the files beside it"
        onChange={({ currentTarget }) => {
          const files = [...(currentTarget.files ?? [])];
          // The same file may be chosen again after it was mended.
          currentTarget.value = '';
          if (files.length > 0) void session.openFiles(files);
        }}
      />
      {notice && (
        <p className="notice" role="status">
          {notice}
        </p>
      )}
    </header>
  );
}
