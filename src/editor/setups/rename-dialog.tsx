import { Dialog } from 'radix-ui';
import { useState } from 'react';
import { setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { renameSetup, setupNamed } from './setup-edits.ts';
import { useSetups, useSetupsStore } from './setups-state.ts';

/** Asks for another name of the setup that is shown. */
export function RenameDialog() {
  const setups = useSetupsStore();
  const setup = useEditor((state) => setupNamed(state, setupShown(state)));
  const renaming = useSetups((state) => state.renaming);
  return (
    <Dialog.Root
      open={renaming && setup !== undefined}
      onOpenChange={(open) => setups.setState({ renaming: open })}
    >
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-shade" />
        <Dialog.Content className="dialog" aria-describedby={undefined}>
          <Dialog.Title>
            Rename setup <bdi>{setup?.id}</bdi>
          </Dialog.Title>
          {setup && <NameForm key={setup.id} id={setup.id} name={setup.name ?? ''} />}
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function NameForm({ id, name }: { readonly id: string; readonly name: string }) {
  const store = useEditorStore();
  const setups = useSetupsStore();
  const [draft, setDraft] = useState(name);
  const [refused, setRefused] = useState<string | null>(null);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (renameSetup(store, id, draft)) setups.setState({ renaming: false });
        else setRefused(store.getState().refusedEdit);
      }}
    >
      <label className="setup-name">
        Name
        <input
          type="text"
          autoComplete="off"
          value={draft}
          onChange={({ target }) => setDraft(target.value)}
        />
      </label>
      {refused !== null && (
        <p className="note" role="alert">
          Not renamed: {refused}
        </p>
      )}
      <div className="dialog-buttons">
        <Dialog.Close type="button">Leave it</Dialog.Close>
        <button type="submit" className="first-choice">
          Rename
        </button>
      </div>
    </form>
  );
}
