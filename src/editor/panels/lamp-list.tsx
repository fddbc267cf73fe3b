import { choose } from '../store/choose.ts';
import { edit } from '../store/edits.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { levelText } from './level-text.ts';

const NO_LAMPS = [] as const;

export function LampList() {
  const store = useEditorStore();
  const lamps = useEditor((state) => documentShown(state)?.lamps ?? NO_LAMPS);
  const chosen = useEditor((state) => state.lamp);

  return (
    <section className="panel" aria-label="Lamps">
      <h2>Lamps</h2>
      {lamps.length === 0 && <p className="quiet">This scene has no lamps.</p>}
      <ul className="lamp-list">
        {lamps.map(({ id, name, on, level }) => (
          <li key={id} data-lamp={id}>
            <button
              type="button"
              className="lamp-name"
              aria-pressed={id === chosen}
              onClick={() => choose(store, [id])}
            >
              <bdi>{name ?? id}</bdi>
              <span className="quiet">{on === false ? 'off' : levelText(level ?? 1)}</span>
            </button>
            <button
              type="button"
              role="switch"
              className="switch"
              aria-checked={on !== false}
              aria-label={`${name ?? id} on`}
              onClick={() => edit(store, { do: 'change', id, patch: { on: on === false } })}
            >
              {on === false ? 'Off' : 'On'}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
