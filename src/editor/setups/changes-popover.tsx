import { Popover } from 'radix-ui';
import { useMemo } from 'react';
import { setupShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { changesInWords } from './changes-in-words.ts';
import { setupNamed } from './setup-edits.ts';

/** What the setup that is shown changes against the base, in words. */
export function ChangesPopover() {
  const base = useEditor((state) => state.scene?.document);
  const setup = useEditor((state) => setupNamed(state, setupShown(state)));
  const lengths = useEditor((state) => state.lengths);
  const changes = useMemo(
    () => (base && setup ? changesInWords(base, setup, lengths) : []),
    [base, setup, lengths],
  );
  if (!setup) return null;
  const count = changes.reduce((sum, { fields }) => sum + fields.length, 0);
  return (
    <Popover.Root>
      <Popover.Trigger>{count === 1 ? '1 change' : `${count} changes`}</Popover.Trigger>
      <Popover.Portal>
        <Popover.Content
          className="menu setup-changes"
          side="top"
          align="end"
          sideOffset={4}
          collisionPadding={8}
          aria-label="What it changes against the base"
        >
          <p className="quiet">
            {count === 0
              ? 'As the base so far. What you change now is this setup’s own.'
              : 'Against the base:'}
          </p>
          <ul>
            {changes.map(({ id, name, fields }) => (
              <li key={id}>
                <bdi className="setup-changes-name">{name}</bdi>
                <bdi className="quiet">{fields.join('; ')}</bdi>
              </li>
            ))}
          </ul>
        </Popover.Content>
      </Popover.Portal>
    </Popover.Root>
  );
}
