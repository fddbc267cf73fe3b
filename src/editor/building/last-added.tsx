import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { openPanel } from '../shell/shell-state.ts';
import { useEditor } from '../store/use-editor.ts';

/** What was added last, and by what name; one page has one of it. */
interface Added {
  readonly id: string;
  readonly name: string;
}

const added = createStore<{ readonly last: Added | null }>(() => ({ last: null }));

export function setLastAdded(last: Added): void {
  added.setState({ last });
}

/** While what was added last is what is chosen: that it stands, and the way to all that can be set of it. */
export function LastAdded() {
  const last = useStore(added, (state) => state.last);
  const isChosen = useEditor(({ chosen }) => chosen.length === 1 && chosen[0] === last?.id);
  return (
    <div role="status">
      {last && isChosen && (
        <p className="last-added">
          <span>
            <bdi>{last.name}</bdi> is in the scene.
          </span>
          <button type="button" onClick={() => openPanel('chosen')}>
            Adjust it
          </button>
        </p>
      )}
    </div>
  );
}
