import { choose } from '../store/choose.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { subjectsIn } from './desk.tsx';
import { DOCUMENT, nameless } from './subject.ts';
import { TrailBack } from './trail.tsx';

interface PropertiesHeadProps {
  readonly ids: readonly string[];
  /** "Lamp", or how many things. */
  readonly word: string;
}

/** What is chosen, and the way back from it. */
export function PropertiesHead({ ids, word }: PropertiesHeadProps) {
  const store = useEditorStore();
  const subject = useEditor((state) => {
    const document = documentShown(state);
    return document && subjectsIn(document, ids).at(-1);
  });
  if (!subject) return null;
  const several = ids.length > 1;
  const isScene = subject.kind === DOCUMENT;
  const { name, title } = subject.thing as { name?: string; title?: string };

  return (
    <header className="properties-head">
      <p className="quiet properties-trail">
        {!isScene && (
          <button type="button" className="trail-step" onClick={() => choose(store, [])}>
            Scene
          </button>
        )}
        <TrailBack ids={ids} />
        {!isScene && <span aria-hidden="true">›</span>}
        <span>{word}</span>
      </p>
      <h2>
        <bdi>
          {several
            ? `${name ?? subject.id} and ${ids.length - 1} more`
            : (name ?? title ?? (nameless(subject) ? word : subject.id))}
        </bdi>
      </h2>
      {subject.fromLibrary && (
        <p className="quiet">From the library. The first change makes it this scene’s own.</p>
      )}
    </header>
  );
}
