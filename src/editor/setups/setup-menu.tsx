import { DropdownMenu } from 'radix-ui';
import { openPanel } from '../shell/shell-state.ts';
import { choose } from '../store/choose.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { moveSetup, removeSetup, setupNamed, setupsOf, setupTitle } from './setup-edits.ts';
import { useSetupsStore } from './setups-state.ts';

/** What can be done with the setup that is shown, and with all of them. */
export function SetupMenu() {
  const store = useEditorStore();
  const setups = useSetupsStore();
  const id = useEditor(setupShown);
  const setup = useEditor((state) => setupNamed(state, id));
  const at = useEditor((state) => setupsOf(state).findIndex((one) => one.id === id));
  const noCamera = useEditor((state) => cameraShown(state) === undefined);
  const last = useEditor((state) => setupsOf(state).length - 1);

  return (
    <DropdownMenu.Root>
      <DropdownMenu.Trigger className="menu-trigger" aria-label="More about setups">
        More
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className="menu" side="top" align="end" sideOffset={4} collisionPadding={8}>
          <DropdownMenu.Label className="menu-label">
            <bdi>{setupTitle(setup)}</bdi>
          </DropdownMenu.Label>
          <DropdownMenu.Item
            className="menu-item"
            disabled={!setup}
            onSelect={() => {
              if (id === undefined) return;
              choose(store, [id]);
              openPanel('chosen');
            }}
          >
            What it changes, field by field
          </DropdownMenu.Item>
          <DropdownMenu.Item
            className="menu-item"
            disabled={!setup}
            onSelect={() => setups.setState({ renaming: true })}
          >
            Rename… <kbd>F2</kbd>
          </DropdownMenu.Item>
          <DropdownMenu.Item
            className="menu-item"
            disabled={at <= 0}
            onSelect={() => id !== undefined && moveSetup(store, id, -1)}
          >
            Shoot it earlier <kbd>Alt+←</kbd>
          </DropdownMenu.Item>
          <DropdownMenu.Item
            className="menu-item"
            disabled={at < 0 || at >= last}
            onSelect={() => id !== undefined && moveSetup(store, id, 1)}
          >
            Shoot it later <kbd>Alt+→</kbd>
          </DropdownMenu.Item>
          <DropdownMenu.Separator className="menu-line" />
          <DropdownMenu.Item
            className="menu-item"
            disabled={!setup}
            onSelect={() => id !== undefined && removeSetup(store, id)}
          >
            Remove
          </DropdownMenu.Item>
          <DropdownMenu.Separator className="menu-line" />
          <DropdownMenu.Item
            className="menu-item"
            disabled={noCamera}
            onSelect={() => setups.setState({ buildUp: true })}
          >
            One lamp at a time…
          </DropdownMenu.Item>
          <DropdownMenu.Item
            className="menu-item"
            disabled={noCamera}
            onSelect={() => setups.setState({ allSetups: true })}
          >
            Contact sheet of all setups…
          </DropdownMenu.Item>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}
