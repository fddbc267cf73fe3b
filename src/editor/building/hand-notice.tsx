import { useEffect } from 'react';
import { useEditorStore } from '../store/use-editor.ts';
import { recipeInHand, stopPlacing, usePlacing } from './placing.ts';
import { putInPlace } from './put-in-place.ts';

/** What is in hand and what the next press on the plan does; Escape puts it down. */
export function HandNotice() {
  const store = useEditorStore();
  const placing = usePlacing();
  const busy = placing !== null;
  useEffect(() => {
    if (!busy) return;
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key === 'Escape' && !event.defaultPrevented) stopPlacing();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [busy]);

  const putReady = () => {
    const recipe = recipeInHand();
    if (recipe) putInPlace(store, recipe);
  };
  return (
    <div role="status">
      {placing && (
        <div className="in-hand">
          <p>
            <bdi>{placing.name}</bdi>: <strong>{placing.hint}</strong>, by a press on the plan.
          </p>
          <div className="in-hand-buttons">
            <button type="button" onClick={putReady}>
              Put it ready placed
            </button>
            <button type="button" onClick={stopPlacing}>
              Put it down
            </button>
          </div>
        </div>
      )}
    </div>
  );
}
