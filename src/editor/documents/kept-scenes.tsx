import { useEffect, useState } from 'react';
import { useSession } from '../store/use-editor.ts';
import { whenChanged } from './kept-words.ts';
import type { KeptScene } from './shelf.ts';
import { useDocuments } from './use-documents.ts';

/** Every scene that this browser keeps, to open or to take away for good. */
export function KeptScenes({ onOpened }: { readonly onOpened: () => void }) {
  const { documents } = useSession();
  const kept = useDocuments((state) => state.kept);
  const open = useDocuments((state) => state.shown?.id);
  /** Taking a scene away for good is asked once more. */
  const [sure, setSure] = useState<string | null>(null);
  useEffect(() => void documents.refreshKept(), [documents]);

  if (kept.length === 0)
    return <p className="quiet">None yet. Every scene that you open or change is kept here by itself.</p>;
  return (
    <ul className="kept-scenes">
      {kept.map((scene) => (
        <li key={scene.id}>
          <button
            type="button"
            className="kept-scene"
            disabled={scene.id === open}
            onClick={async () => {
              if (await documents.openKept(scene.id)) onOpened();
            }}
          >
            <bdi>{scene.title || 'Untitled scene'}</bdi>
            <span className="quiet">{aboutScene(scene, open)}</span>
          </button>
          {sure === scene.id ? (
            <>
              <button
                type="button"
                className="first-choice"
                onClick={() => void documents.forgetKept(scene.id)}
              >
                Take away for good
              </button>
              <button type="button" onClick={() => setSure(null)}>
                Keep
              </button>
            </>
          ) : (
            <button
              type="button"
              disabled={scene.id === open}
              aria-label={`Take away ${scene.title || 'Untitled scene'}`}
              onClick={() => setSure(scene.id)}
            >
              Take away…
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}

function aboutScene(
  { id, copy, fileName, saved, changed_ms }: KeptScene,
  open: string | null | undefined,
): string {
  return [
    id === open && 'open now',
    copy && 'copy',
    whenChanged(changed_ms),
    fileName ? `${saved ? 'saved as' : 'changed since saved as'} ${fileName}` : 'not saved as a file',
  ]
    .filter(Boolean)
    .join(' · ');
}
