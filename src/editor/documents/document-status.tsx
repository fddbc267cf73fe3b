import { useEditor } from '../store/use-editor.ts';
import type { DocumentShown } from './documents-state.ts';
import { useDocuments } from './use-documents.ts';

/** Under the title: which file holds the scene, and where else it is safe. */
export function DocumentStatus() {
  const shown = useDocuments((state) => state.shown);
  const trouble = useEditor((state) => state.storageNotice !== null);
  if (!shown) return null;
  const safe = safety(shown, trouble);
  return (
    <p
      className="document-status quiet"
      data-kept={shown.kept}
      title={[shown.fileName, safe].filter(Boolean).join(' · ')}
    >
      {shown.copy && 'Copy · '}
      {shown.fileName && (
        <>
          <bdi>{shown.fileName}</bdi> ·{' '}
        </>
      )}
      {safe}
    </p>
  );
}

/** The state that a moment's keeping passes through is not spoken of: words that flicker help nobody. */
function safety({ delivered, fileName, saved, standing }: DocumentShown, trouble: boolean): string {
  if (saved) return 'saved';
  if (delivered) return 'the demo, unchanged';
  if (trouble) return 'not kept in this browser';
  if (standing !== 'ours') return 'open in another tab';
  return fileName ? 'changed since it was saved' : 'kept in this browser, not saved as a file';
}
