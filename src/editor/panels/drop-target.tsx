import { type DragEvent, type ReactNode, useState } from 'react';
import { useSession } from '../store/use-editor.ts';

/** The whole page takes files; anything else that is dragged over it is left to the browser. */
export function DropTarget({ children }: { readonly children: ReactNode }) {
  const session = useSession();
  const [over, setOver] = useState(false);
  const carriesFiles = (event: DragEvent) => event.dataTransfer.types.includes('Files');

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is the pointer's way to what the Open… button does
    <div
      className={over ? 'page drop-over' : 'page'}
      data-testid="page"
      onDragOver={(event) => {
        if (!carriesFiles(event)) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
      }}
      onDrop={(event) => {
        setOver(false);
        if (!carriesFiles(event)) return;
        event.preventDefault();
        const files = [...event.dataTransfer.files];
        if (files.length > 0) void session.openFiles(files);
      }}
    >
      {children}
      {over && <p className="drop-word">Drop a scene, with the files beside it</p>}
    </div>
  );
}
