import '../styles/setups.css';
import { ToggleGroup } from 'radix-ui';
import { useEffect, useRef } from 'react';
import { useFrame, useFrameStore } from '../frame/use-frame.ts';
import { setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { AllSetupsDialog } from './all-setups-dialog.tsx';
import { BuildUpDialog } from './build-up-dialog.tsx';
import { ChangesPopover } from './changes-popover.tsx';
import { holdOther, keepBefore, letOtherGo, listenForOther, otherSetup } from './hold-other.ts';
import { keepSmallFrames } from './keep-small-frames.ts';
import { RenameDialog } from './rename-dialog.tsx';
import { BASE, SetupCard } from './setup-card.tsx';
import { addSetup, setupNamed, setupsOf, setupTitle, showSetup } from './setup-edits.ts';
import { SetupMenu } from './setup-menu.tsx';
import { useSetups, useSetupsStore } from './setups-state.ts';
import { startSmallFrameDesk } from './worker-small-frame-desk.ts';

/** The base and the setups in shooting order, by name or as small frames; choosing one shows it everywhere. */
export function SetupsStrip() {
  const store = useEditorStore();
  const setups = useEditor(setupsOf);
  const shown = useEditor(setupShown);
  const strip = useSetupsStore();
  const open = useSetups((state) => state.open);
  const list = useRef<HTMLDivElement>(null);
  useSmallFrames();
  useEffect(() => {
    const stopKeeping = keepBefore(store);
    const stopListening = listenForOther(store);
    return () => {
      stopListening();
      stopKeeping();
    };
  }, [store]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the chosen card is another one then.
  useEffect(() => {
    list.current?.querySelector('[data-state=on]')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [shown, setups, open]);

  return (
    <section className={open ? 'panel setups-strip open' : 'panel setups-strip'} aria-label="Setups">
      <h2 className="out-of-sight">Setups</h2>
      <button type="button" aria-pressed={open} onClick={() => strip.setState({ open: !open })}>
        Frames
      </button>
      <ToggleGroup.Root
        ref={list}
        type="single"
        className="setup-cards"
        aria-label="Base and setups in shooting order"
        value={shown ?? BASE}
        onValueChange={(value) => value && showSetup(store, value === BASE ? undefined : value)}
      >
        <SetupCard setup={undefined} />
        {setups.map((setup) => (
          <SetupCard key={setup.id} setup={setup} />
        ))}
      </ToggleGroup.Root>
      <div className="setup-tools">
        <FrameNotice />
        <ChangesPopover />
        <HoldOther />
        <button type="button" onClick={() => addSetup(store)}>
          New
        </button>
        <SetupMenu />
      </div>
      <RenameDialog />
      <BuildUpDialog />
      <AllSetupsDialog />
    </section>
  );
}

/** The worker of small frames is there from when they are first wanted. */
function useSmallFrames() {
  const store = useEditorStore();
  const setups = useSetupsStore();
  const frame = useFrameStore();
  const wanted = useSetups(
    ({ open, buildUp, allSetups, failure }) => (open || buildUp || allSetups) && failure === null,
  );
  useEffect(() => {
    if (!wanted) return;
    const desk = startSmallFrameDesk();
    const stop = keepSmallFrames(store, setups, frame, desk);
    return () => {
      stop();
      desk.close();
    };
  }, [store, setups, frame, wanted]);
}

/** Why small frames are not drawn, where that is not plain to see. */
function FrameNotice() {
  const strip = useSetupsStore();
  const failure = useSetups((state) => state.failure);
  const held = useFrame((state) => state.paused);
  const open = useSetups((state) => state.open);
  if (failure !== null)
    return (
      <button type="button" title={failure} onClick={() => strip.setState({ failure: null })}>
        Frames stopped: again
      </button>
    );
  return open && held ? <p className="quiet">Held with the frame</p> : null;
}

/** Shows the other one for as long as it is pressed. */
function HoldOther() {
  const store = useEditorStore();
  const before = useSetups((state) => state.before);
  const held = useSetups((state) => state.held !== null);
  const other = useEditor((state) => {
    const found = otherSetup(state, before);
    return found && (found.id ?? BASE);
  });
  const title = useEditor((state) => setupTitle(setupNamed(state, other ?? undefined)));
  return (
    <button
      type="button"
      className="hold-other"
      disabled={other === null && !held}
      aria-pressed={held}
      title={held ? undefined : `Hold to see ${title}`}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        holdOther(store);
      }}
      onPointerUp={() => letOtherGo(store)}
      onPointerCancel={() => letOtherGo(store)}
      onKeyDown={({ key, repeat }) => (key === ' ' || key === 'Enter') && !repeat && holdOther(store)}
      onKeyUp={() => letOtherGo(store)}
      onBlur={() => letOtherGo(store)}
      onContextMenu={(event) => event.preventDefault()}
    >
      Hold: other <kbd>O</kbd>
    </button>
  );
}
