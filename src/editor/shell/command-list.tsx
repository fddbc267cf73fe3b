import { Command } from 'cmdk';
import { Dialog } from 'radix-ui';
import { useEffect, useMemo, useRef } from 'react';
import { useSession } from '../store/use-editor.ts';
import { allCommands, type PageCommand } from './all-commands.ts';
import { shellStore, useShell } from './shell-state.ts';

/** Every command by its name, with the keys that do the same: typed for, or read through. */
export function CommandList() {
  const open = useShell((state) => state.commands);
  const setOpen = (commands: boolean) => shellStore.setState({ commands });
  const showsPanel = useRef(false);
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (
        event.defaultPrevented ||
        event.key.toLowerCase() !== 'k' ||
        !(event.ctrlKey || event.metaKey) ||
        event.altKey
      )
        return;
      event.preventDefault();
      showsPanel.current = false;
      shellStore.setState(({ commands }) => ({ commands: !commands }));
    };
    window.addEventListener('keydown', listen);
    return () => window.removeEventListener('keydown', listen);
  }, []);
  return (
    <Dialog.Root open={open} onOpenChange={setOpen}>
      <Dialog.Trigger>Commands</Dialog.Trigger>
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-veil" />
        <Dialog.Content
          className="command-list"
          aria-describedby={undefined}
          onCloseAutoFocus={(event) => {
            if (!showsPanel.current) return;
            // The keys go on in the panel that was asked for.
            event.preventDefault();
            document.querySelector<HTMLElement>('.side-tabs > [data-state=active]')?.focus();
          }}
        >
          <Dialog.Title className="out-of-sight">Commands</Dialog.Title>
          <Commands
            done={({ group }) => {
              showsPanel.current = group === 'Panels';
              setOpen(false);
            }}
          />
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function Commands({ done }: { readonly done: (command: PageCommand) => void }) {
  const session = useSession();
  const groups = useMemo(() => {
    const found = new Map<string, PageCommand[]>();
    for (const command of allCommands(session)) {
      if (!command.enabled()) continue;
      const group = found.get(command.group) ?? [];
      group.push(command);
      found.set(command.group, group);
    }
    return found;
  }, [session]);
  const run = (command: PageCommand) => {
    done(command);
    command.run();
  };
  return (
    <Command label="Commands" loop>
      <Command.Input placeholder="What do you want to do?" />
      <Command.List>
        <Command.Empty>Nothing is called that. Try a plainer word.</Command.Empty>
        {[...groups].map(([group, commands]) => (
          <Command.Group key={group} heading={group}>
            {commands.map((command) => (
              <Command.Item
                key={command.id}
                value={`${command.name} ${command.id}`}
                onSelect={() => run(command)}
              >
                {command.name}
                {command.keys && <kbd>{command.keys}</kbd>}
              </Command.Item>
            ))}
          </Command.Group>
        ))}
      </Command.List>
    </Command>
  );
}
