import { Dialog } from 'radix-ui';
import { useMemo } from 'react';
import type { Setup } from '../../scene/schema/setup.ts';
import { useFrameStore } from '../frame/use-frame.ts';
import { cameraShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { type SetupOnSheet, saveAllSetupsSheet } from './all-setups-sheet.ts';
import { changesInWords } from './changes-in-words.ts';
import { frameKey, sameKey, slotOf } from './frame-key.ts';
import { setupsOf, setupTitle } from './setup-edits.ts';
import { useSetups, useSetupsStore } from './setups-state.ts';
import { SheetButtons } from './sheet-buttons.tsx';
import type { SmallFrame } from './small-frame-desk.ts';
import { SmallPicture } from './small-picture.tsx';
import { useSmallFrame } from './use-small-frame.ts';

const ALL = { kind: 'all' } as const;

/** The base and every setup side by side in shooting order, each with what it changes. */
export function AllSetupsDialog() {
  const setups = useSetupsStore();
  const open = useSetups((state) => state.allSetups);
  return (
    <Dialog.Root open={open} onOpenChange={(allSetups) => setups.setState({ allSetups })}>
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-shade" />
        <Dialog.Content className="dialog build-up" aria-describedby={undefined}>
          <AllSetups />
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function AllSetups() {
  const store = useEditorStore();
  const frameStore = useFrameStore();
  const base = useEditor((state) => state.scene?.document);
  const lengths = useEditor((state) => state.lengths);
  const setups = useEditor(setupsOf);
  const camera = useEditor((state) => cameraShown(state));
  const all = useMemo(
    () =>
      [undefined, ...setups].map((setup) => ({
        setup,
        changes:
          base && setup
            ? changesInWords(base, setup, lengths).map(({ name, fields }) => `${name}: ${fields.join('; ')}`)
            : [],
      })),
    [base, setups, lengths],
  );
  const frames = useFrames(all.map(({ setup }) => setup));
  const done = frames.filter((frame) => frame !== undefined).length;
  const save = async () => {
    const cells = all.flatMap(({ setup, changes }, i): SetupOnSheet[] => {
      const frame = frames[i];
      return frame ? [{ id: setup?.id, title: setupTitle(setup), frame, changes }] : [];
    });
    await saveAllSetupsSheet(store.getState(), cells, frameStore.getState().look);
  };

  return (
    <>
      <header className="build-up-head">
        <div>
          <Dialog.Title>All setups</Dialog.Title>
          <p className="quiet">
            In shooting order, by camera <bdi>{camera?.name ?? camera?.id}</bdi>.
          </p>
        </div>
      </header>
      <ol className="build-up-steps all-setups">
        {all.map(({ setup, changes }) => (
          <Card key={setup?.id ?? ' base'} setup={setup} changes={changes} />
        ))}
      </ol>
      <p className="quiet">
        Every frame at the camera’s own exposure, small and with its noise smoothed: for telling setups apart,
        not for judging light.
      </p>
      <SheetButtons done={done} count={all.length} ready={done === all.length} save={save} />
    </>
  );
}

function Card({
  setup,
  changes,
}: {
  readonly setup: Setup | undefined;
  readonly changes: readonly string[];
}) {
  const { frame, state } = useSmallFrame(setup?.id, ALL);
  return (
    <li className="build-up-step">
      <h3>
        <bdi>{setupTitle(setup)}</bdi>
      </h3>
      <figure>
        <SmallPicture frame={frame} state={state} />
        <figcaption className="quiet">
          {setup === undefined
            ? 'As the scene stands without a setup.'
            : changes.length === 0
              ? 'As the base so far.'
              : changes.map((words) => (
                  <p key={words}>
                    <bdi>{words}</bdi>
                  </p>
                ))}
        </figcaption>
      </figure>
    </li>
  );
}

/** The frames that are of the scene as it stands; undefined for those that are not there yet. */
function useFrames(setups: readonly (Setup | undefined)[]): readonly (SmallFrame | undefined)[] {
  const kept = useSetups((state) => state.frames);
  const scene = useEditor((state) => state.scene);
  const camera = useEditor((state) => cameraShown(state)?.id);
  return setups.map((setup) => {
    const found = kept.get(slotOf(setup?.id, ALL));
    const current = scene && found && sameKey(found.key, frameKey(scene, setup?.id, camera));
    return current ? (found.frame ?? undefined) : undefined;
  });
}
