import { DropdownMenu } from 'radix-ui';
import { useMemo } from 'react';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { type PlanAction, planActions } from '../plan-actions.ts';
import { usePlan } from '../use-plan.ts';

const GROUPS: readonly (readonly string[])[] = [
  ['plan-duplicate', 'plan-mirror-x', 'plan-mirror-z'],
  [
    'plan-align-left',
    'plan-align-centre',
    'plan-align-right',
    'plan-align-top',
    'plan-align-middle',
    'plan-align-bottom',
    'plan-same-height',
  ],
  ['plan-lock', 'plan-hide', 'plan-show-hidden'],
  ['plan-fit-chosen', 'plan-measure'],
  ['plan-remove'],
];

/** What can be done to all that is chosen at once. */
export function ArrangeMenu() {
  const editor = useEditorStore();
  const actions = useMemo(() => new Map(planActions(editor).map((action) => [action.id, action])), [editor]);
  return (
    <DropdownMenu.Root>
      <DropdownMenu.Trigger className="plan-tool">Arrange</DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className="plan-menu" align="end" sideOffset={6} collisionPadding={8}>
          {GROUPS.map((group, i) => (
            <DropdownMenu.Group key={group[0]}>
              {i > 0 && <DropdownMenu.Separator className="plan-menu-line" />}
              {group.map((id) => (
                <MenuItem key={id} action={actions.get(id)!} />
              ))}
            </DropdownMenu.Group>
          ))}
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}

function MenuItem({ action }: { readonly action: PlanAction }) {
  // Whether it can be done hangs on what is chosen, locked and hidden.
  useEditor((state) => state.chosen);
  usePlan((state) => state.locked);
  usePlan((state) => state.hidden);
  usePlan((state) => state.hiddenKinds);
  return (
    <DropdownMenu.Item className="plan-menu-item" disabled={!action.enabled()} onSelect={() => action.run()}>
      <span>{action.name}</span>
      {action.keys && <kbd>{keysText(action.keys)}</kbd>}
    </DropdownMenu.Item>
  );
}

/** "Mod+d" as the other menus write it: "Ctrl+D". */
export function keysText(keys: string): string {
  return keys
    .split('+')
    .map((key) => (key === 'Mod' ? 'Ctrl' : key.length === 1 ? key.toUpperCase() : key))
    .join('+');
}
