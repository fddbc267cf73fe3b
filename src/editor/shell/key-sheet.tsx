import { Dialog } from 'radix-ui';
import { useEffect } from 'react';
import { isTypedIn } from '../store/keys.ts';
import { useSession } from '../store/use-editor.ts';
import { allCommands } from './all-commands.ts';
import { GUIDING_KEYS, type GuidingKeys } from './guiding-keys.ts';
import { shellStore, useShell } from './shell-state.ts';
import '../styles/key-sheet.css';

/** What has to have the focus for the keys of a group, in the order of the sheet. */
const WHERE: Readonly<Record<string, string>> = {
  Page: 'anywhere',
  Document: 'anywhere',
  Frame: 'on the frame',
  'Stop rule': 'on the ruler',
  Setups: 'O anywhere, the others on a setup',
  Fields: 'in any field',
  Build: 'anywhere',
  Plan: 'on the drawing',
};

/** All keys on one sheet, by what they are for. */
export function KeySheet() {
  const open = useShell((state) => state.keySheet);
  const setOpen = (keySheet: boolean) => shellStore.setState({ keySheet });
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.key !== '?' || event.ctrlKey || event.metaKey) return;
      if (isTypedIn(event.target)) return;
      if (event.target instanceof Element && event.target.closest('[role=menu], [aria-modal=true]')) return;
      event.preventDefault();
      shellStore.setState({ keySheet: true });
    };
    window.addEventListener('keydown', listen);
    return () => window.removeEventListener('keydown', listen);
  }, []);
  return (
    <Dialog.Root open={open} onOpenChange={setOpen}>
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-veil" />
        <Dialog.Content className="key-sheet" aria-describedby={undefined}>
          <header>
            <Dialog.Title>Keys</Dialog.Title>
            <Dialog.Close>Close</Dialog.Close>
          </header>
          <Keys />
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function Keys() {
  const session = useSession();
  const groups = new Map<string, GuidingKeys[]>(Object.keys(WHERE).map((group) => [group, []]));
  const rowsOf = (group: string) => {
    const rows = groups.get(group) ?? [];
    groups.set(group, rows);
    return rows;
  };
  for (const { group, keys, name } of allCommands(session))
    if (keys !== '') rowsOf(group).push({ keys, does: name });
  for (const [group, keys] of Object.entries(GUIDING_KEYS)) rowsOf(group).push(...keys);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard
    <section className="key-groups" tabIndex={0} aria-label="All keys">
      {[...groups].map(([group, rows]) => (
        <section key={group} aria-label={group}>
          <h3>
            {group} <span className="quiet">{WHERE[group]}</span>
          </h3>
          <dl>
            {rows.map(({ keys, does }) => (
              <div key={`${keys} ${does}`}>
                <dt>
                  <kbd>{keys}</kbd>
                </dt>
                <dd>{does}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </section>
  );
}
