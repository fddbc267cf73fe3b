import { Tooltip } from 'radix-ui';
import { LampBadge } from '../figures/lamp-badge.tsx';
import { lampSign } from '../figures/lamp-colour.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { lampsAlight, toggleAlone, toggleMuted, unmuteAll } from './muting.ts';

/** A key for every lamp that is on: pressed in, it counts; with Shift, it alone does. */
export function LampKeys() {
  const store = useEditorStore();
  const document = useEditor(documentShown);
  const lamps = useEditor(lampsAlight);
  const muted = useEditor((state) => state.muted);
  if (lamps.length === 0) return null;
  const anyOut = lamps.some(({ id }) => muted.has(id));

  return (
    <fieldset className="lamp-keys">
      <legend className="out-of-sight">Lamps that count</legend>
      <Tooltip.Provider delayDuration={400}>
        {lamps.map(({ id, name = id }) => (
          <Tooltip.Root key={id}>
            <Tooltip.Trigger asChild>
              <button
                type="button"
                className="lamp-key"
                aria-pressed={!muted.has(id)}
                aria-label={`${lampSign(document, id).initial} · ${name} counts`}
                onClick={(event) => (event.shiftKey ? toggleAlone(store, id) : toggleMuted(store, id))}
              >
                <LampBadge sign={lampSign(document, id)} />
              </button>
            </Tooltip.Trigger>
            <Tooltip.Portal>
              <Tooltip.Content className="rule-tip" sideOffset={4}>
                <bdi>{name}</bdi>
                <span className="quiet">
                  {muted.has(id) ? 'left out; press to take it in' : 'counts; press to leave it out'}, with
                  Shift it alone
                </span>
              </Tooltip.Content>
            </Tooltip.Portal>
          </Tooltip.Root>
        ))}
      </Tooltip.Provider>
      {anyOut && (
        <button type="button" className="all-lamps" onClick={() => unmuteAll(store)}>
          All lamps
        </button>
      )}
    </fieldset>
  );
}
