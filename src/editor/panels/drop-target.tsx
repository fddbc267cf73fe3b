import { type DragEvent, type ReactNode, useState } from 'react';
import type { FileBrought } from '../documents/documents.ts';
import { useSession } from '../store/use-editor.ts';

/** The whole page takes files; anything else that is dragged over it is left to the browser. */
export function DropTarget({ children }: { readonly children: ReactNode }) {
  const { documents } = useSession();
  const [over, setOver] = useState(false);
  const carriesFiles = (event: DragEvent) => event.dataTransfer.types.includes('Files');

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is the pointer's way to what the menu does
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
        const brought = filesOf(event.dataTransfer);
        if (brought.length > 0) void Promise.all(brought).then(documents.openFiles);
      }}
    >
      {children}
      {over && <p className="drop-word">Drop a scene, a photometric file or a mesh</p>}
    </div>
  );
}

interface HandingItem {
  getAsFileSystemHandle?(): Promise<FileSystemHandle | null>;
}

/** The files with what lets the browser write them again, where it gives that. Only this turn may ask for either. */
function filesOf(transfer: DataTransfer): Promise<FileBrought>[] {
  return [...transfer.items].flatMap((item) => {
    const file = item.getAsFile();
    if (!file) return [];
    const asking = (item as HandingItem).getAsFileSystemHandle?.call(item) ?? Promise.resolve(null);
    return [
      asking.then(
        (handle) => ({ file, handle: handle?.kind === 'file' ? (handle as FileSystemFileHandle) : null }),
        () => ({ file, handle: null }),
      ),
    ];
  });
}
