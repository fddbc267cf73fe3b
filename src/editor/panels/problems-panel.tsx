import { useEffect, useRef } from 'react';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { ProblemList } from './problem-list.tsx';

/** Everything that is wrong with a file that was not opened. The scene before it stays. */
export function ProblemsPanel() {
  const store = useEditorStore();
  const refused = useEditor((state) => state.refusedFile);
  const dismiss = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (refused) dismiss.current?.focus({ preventScroll: false });
  }, [refused]);

  return (
    <div role="alert">
      {refused && (
        <section className="problems" aria-label="Problems">
          <header>
            <h2>
              <bdi>{refused.title}</bdi>
            </h2>
            <p>
              {refused.problems.length === 1 ? 'One problem. ' : `${refused.problems.length} problems. `}
              What was open before is still open.
            </p>
            <button type="button" ref={dismiss} onClick={() => store.setState({ refusedFile: null })}>
              Dismiss
            </button>
          </header>
          <ProblemList problems={refused.problems} />
        </section>
      )}
    </div>
  );
}
