import { useEffect } from 'react';
import { useEditor, useSession } from '../store/use-editor.ts';
import { useDocuments } from './use-documents.ts';

/** What was just done stays in sight for so long; it can be sent away sooner. */
const READ_ms = 12_000;

/** What a person should know of the document: another tab has it, it is not kept, it was saved. */
export function DocumentNotices() {
  const { documents } = useSession();
  const trouble = useEditor((state) => state.storageNotice);
  const notice = useDocuments((state) => state.notice);
  const standing = useDocuments((state) => state.shown?.standing ?? 'ours');
  useEffect(() => {
    if (notice === null) return undefined;
    const timer = setTimeout(() => documents.say(null), READ_ms);
    return () => clearTimeout(timer);
  }, [documents, notice]);

  return (
    <div className="document-notices" role="status">
      {trouble && <p className="notice">{trouble}</p>}
      {standing !== 'ours' && (
        <div className="notice">
          <p>
            {standing === 'elsewhere'
              ? 'This scene is open in another tab. A change here makes a copy; the other tab keeps its own.'
              : 'Another tab took this scene over. Here it is as it stood then; a change here makes a copy.'}
          </p>
          <div className="bar-buttons">
            <button type="button" onClick={() => void documents.goOnAsCopy()}>
              Work on a copy
            </button>
            <button type="button" onClick={() => void documents.takeOver()}>
              {standing === 'elsewhere' ? 'Take it over here' : 'Take it back'}
            </button>
          </div>
        </div>
      )}
      {notice && (
        <div className="notice">
          <p>
            <bdi>{notice}</bdi>
          </p>
          <button type="button" onClick={() => documents.say(null)}>
            Hide
          </button>
        </div>
      )}
    </div>
  );
}
