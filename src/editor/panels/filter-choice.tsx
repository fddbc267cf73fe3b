import { useId } from 'react';
import { LIBRARY } from '../../scene/library/library.ts';
import type { Filter } from '../../scene/schema/filter.ts';
import { edit } from '../store/edits.ts';
import { documentShown, lampChosen } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';

/** What stands before the chosen lamp, in order: taken away with a press, added from the scene's and the library's filters. */
export function FilterChoice() {
  const store = useEditorStore();
  const field = useId();
  const lamp = useEditor(lampChosen);
  const own = useEditor((state) => documentShown(state)?.filters);
  const loss_stops = useEditor((state) => (lamp ? state.looks.get(lamp.id)?.filterLoss_stops : undefined));
  if (!lamp) return null;

  const known: Readonly<Record<string, Filter>> = { ...LIBRARY.filters, ...own };
  const named = (id: string) => known[id]?.name ?? id;
  const filters = lamp.filters ?? [];
  const put = (now: readonly string[]) =>
    edit(store, { do: 'change', id: lamp.id, patch: { filters: now.length > 0 ? now : null } });

  return (
    <div className="filters">
      <label htmlFor={field}>Filters</label>
      {filters.length > 0 && loss_stops !== undefined && (
        <span className="quiet filter-loss">take {loss_stops.toFixed(1)} stops</span>
      )}
      {filters.length > 0 && (
        <ul className="filter-list">
          {filters.map((id, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a filter may stand there twice, and has no other identity
            <li key={`${id}-${index}`}>
              <button
                type="button"
                aria-label={`Take away ${named(id)}`}
                onClick={() => put(filters.toSpliced(index, 1))}
              >
                <bdi>{named(id)}</bdi> <span aria-hidden="true">×</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      <select id={field} value="" onChange={({ target }) => put([...filters, target.value])}>
        <option value="" disabled>
          Add a filter…
        </option>
        {Object.entries(known).map(([id, filter]) => (
          <option key={id} value={id}>
            {filter.name ?? id}
          </option>
        ))}
      </select>
    </div>
  );
}
