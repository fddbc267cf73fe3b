import { ToggleGroup } from 'radix-ui';
import { type DragEvent, type KeyboardEvent, useState } from 'react';
import type { Setup } from '../../scene/schema/setup.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { moveSetup, placeSetup, setupsOf, setupTitle } from './setup-edits.ts';
import { useSetups, useSetupsStore } from './setups-state.ts';
import type { LightShown } from './small-frame-desk.ts';
import { SmallPicture } from './small-picture.tsx';
import { useSmallFrame } from './use-small-frame.ts';

/** What a card is given along while it is dragged. */
const DRAGGED = 'application/x-keyfall-setup';
const ALL: LightShown = { kind: 'all' };
/** What the base is called among the values of the strip: no setup has a space in its id. */
export const BASE = ' base';

/** One setup of the strip, or the base: a press shows it everywhere; dragged, or by Alt and an arrow, it is shot at another time. */
export function SetupCard({ setup }: { readonly setup: Setup | undefined }) {
  const store = useEditorStore();
  const setups = useSetupsStore();
  const open = useSetups((state) => state.open);
  const [over, setOver] = useState(false);
  const id = setup?.id;

  const onKeyDown = (event: KeyboardEvent) => {
    if (id === undefined) return;
    const way = { ArrowLeft: -1, ArrowRight: 1 }[event.key] as -1 | 1 | undefined;
    if (event.key === 'F2') setups.setState({ renaming: true });
    if (!event.altKey || way === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    moveSetup(store, id, way);
  };
  const onDragOver = (event: DragEvent) => {
    if (!event.dataTransfer.types.includes(DRAGGED)) return;
    event.preventDefault();
    event.stopPropagation();
    setOver(true);
  };
  const onDrop = (event: DragEvent) => {
    setOver(false);
    const dragged = event.dataTransfer.getData(DRAGGED);
    if (dragged === '') return;
    event.preventDefault();
    event.stopPropagation();
    // Onto the base is to the front.
    placeSetup(
      store,
      dragged,
      id === undefined ? 0 : setupsOf(store.getState()).findIndex((one) => one.id === id),
    );
  };

  return (
    <ToggleGroup.Item
      value={id ?? BASE}
      className={over ? 'setup-card dragged-over' : 'setup-card'}
      title={setup ? setupTitle(setup) : undefined}
      draggable={id !== undefined}
      onKeyDown={onKeyDown}
      onDragStart={({ dataTransfer }) => {
        if (id === undefined) return;
        dataTransfer.setData(DRAGGED, id);
        dataTransfer.effectAllowed = 'move';
      }}
      onDragOver={onDragOver}
      onDragLeave={() => setOver(false)}
      onDrop={onDrop}
    >
      {open && <CardFrame setup={id} />}
      <span className="setup-card-words">
        {setup ? (
          <>
            <bdi className="setup-card-number">{setup.id}</bdi>
            {setup.name && <bdi className="setup-card-name">{setup.name}</bdi>}
          </>
        ) : (
          <span className="setup-card-number">Base</span>
        )}
      </span>
    </ToggleGroup.Item>
  );
}

function CardFrame({ setup }: { readonly setup: string | undefined }) {
  const { frame, state } = useSmallFrame(setup, ALL);
  return <SmallPicture frame={frame} state={state} />;
}
