import { DropdownMenu } from 'radix-ui';
import { shellStore } from '../shell/shell-state.ts';
import { useSession } from '../store/use-editor.ts';
import { startTour } from '../tour/tour-state.ts';
import { documentActions } from './document-actions.ts';
import { whenChanged } from './kept-words.ts';
import { useDocuments } from './use-documents.ts';

/** Between these the menu draws a line. */
const GROUPS = [
  ['new-scene', 'open-scene', 'kept-scenes', 'open-demo'],
  ['save-scene', 'save-scene-as', 'copy-link'],
  ['bring-file'],
] as const;
const RECENT = 4;

/** What can be done with the document as a whole, and the scenes that were open last. */
export function DocumentMenu() {
  const session = useSession();
  const { documents } = session;
  const kept = useDocuments((state) => state.kept);
  const open = useDocuments((state) => state.shown?.id);
  const actions = documentActions(session);
  const recent = kept.filter(({ id }) => id !== open).slice(0, RECENT);

  return (
    <DropdownMenu.Root onOpenChange={(opened) => opened && void documents.refreshKept()}>
      <DropdownMenu.Trigger className="menu-trigger">File</DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className="menu" align="start" sideOffset={4} collisionPadding={8}>
          {GROUPS.map((group, i) => (
            <DropdownMenu.Group key={group[0]}>
              {i > 0 && <DropdownMenu.Separator className="menu-line" />}
              {group.map((id) => {
                const { name, keys, enabled, run } = actions.find((action) => action.id === id)!;
                return (
                  <DropdownMenu.Item key={id} className="menu-item" disabled={!enabled()} onSelect={run}>
                    {name}
                    {keys && <kbd>{keys}</kbd>}
                  </DropdownMenu.Item>
                );
              })}
            </DropdownMenu.Group>
          ))}
          <DropdownMenu.Group>
            <DropdownMenu.Separator className="menu-line" />
            <DropdownMenu.Item className="menu-item" onSelect={() => shellStore.setState({ keySheet: true })}>
              Keys
              <kbd>?</kbd>
            </DropdownMenu.Item>
            <DropdownMenu.Item className="menu-item" onSelect={startTour}>
              Show me round
            </DropdownMenu.Item>
          </DropdownMenu.Group>
          {recent.length > 0 && (
            <DropdownMenu.Group>
              <DropdownMenu.Separator className="menu-line" />
              <DropdownMenu.Label className="menu-label">Open lately</DropdownMenu.Label>
              {recent.map((scene) => (
                <DropdownMenu.Item
                  key={scene.id}
                  className="menu-item"
                  onSelect={() => void documents.openKept(scene.id)}
                >
                  <bdi className="menu-title">{scene.title || 'Untitled scene'}</bdi>
                  <span className="quiet">
                    {scene.copy ? 'copy, ' : ''}
                    {whenChanged(scene.changed_ms)}
                  </span>
                </DropdownMenu.Item>
              ))}
            </DropdownMenu.Group>
          )}
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}
