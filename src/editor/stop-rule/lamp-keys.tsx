import { Tooltip } from 'radix-ui';
import { memo } from 'react';
import { LampBadge } from '../figures/lamp-badge.tsx';
import { type LampSign, lampSign } from '../figures/lamp-colour.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { lampsAlight, toggleAlone, toggleMuted, unmuteAll } from './muting.ts';

/** A key for every lamp that is on: pressed in, it counts; with Shift, it alone does. */
export const LampKeys = memo(function LampKeys() {
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
          <LampKey key={id} id={id} name={name} sign={lampSign(document, id)} out={muted.has(id)} />
        ))}
      </Tooltip.Provider>
      {anyOut && (
        <button type="button" className="all-lamps" onClick={() => unmuteAll(store)}>
          All lamps
        </button>
      )}
    </fieldset>
  );
});

/** By itself, so that a lamp that moves does not draw the keys of all anew. */
const LampKey = memo(function LampKey(props: {
  readonly id: string;
  readonly name: string;
  readonly sign: LampSign;
  readonly out: boolean;
}) {
  const { id, name, sign, out } = props;
  const store = useEditorStore();
  return (
    <Tooltip.Root>
      <Tooltip.Trigger asChild>
        <button
          type="button"
          className="lamp-key"
          aria-pressed={!out}
          aria-label={`${sign.initial} · ${name} counts`}
          onClick={(event) => (event.shiftKey ? toggleAlone(store, id) : toggleMuted(store, id))}
        >
          <LampBadge sign={sign} />
        </button>
      </Tooltip.Trigger>
      <Tooltip.Portal>
        <Tooltip.Content className="rule-tip" sideOffset={4}>
          <bdi>{name}</bdi>
          <span className="quiet">
            {out ? 'left out; press to take it in' : 'counts; press to leave it out'}, with Shift it alone
          </span>
        </Tooltip.Content>
      </Tooltip.Portal>
    </Tooltip.Root>
  );
});
