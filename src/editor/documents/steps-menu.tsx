import { DropdownMenu } from 'radix-ui';
import { useState } from 'react';
import { useEditor, useEditorStore, useHistory } from '../store/use-editor.ts';
import { redoSteps, stepsBack, stepsForward, undoSteps } from './steps.ts';

/** More than a person scans; further back goes by going back twice. */
const MOST = 20;

/** Undo and redo, and a list of the steps by name to go several at once. */
export function StepsMenu() {
  const store = useEditorStore();
  const { canUndo, canRedo } = useHistory();
  useEditor((state) => state.step);
  const [last] = stepsBack(store);
  const [next] = stepsForward(store);
  const [steps, setSteps] = useState<{ back: string[]; forward: string[] }>({ back: [], forward: [] });
  const look = (opened: boolean) => {
    if (opened)
      setSteps({ back: stepsBack(store).slice(0, MOST), forward: stepsForward(store).slice(0, MOST) });
  };

  return (
    <div className="steps">
      <button
        type="button"
        title={last && `Undo: ${last}`}
        onClick={() => undoSteps(store, 1)}
        disabled={!canUndo}
      >
        Undo
      </button>
      <button
        type="button"
        title={next && `Redo: ${next}`}
        onClick={() => redoSteps(store, 1)}
        disabled={!canRedo}
      >
        Redo
      </button>
      <DropdownMenu.Root onOpenChange={look}>
        <DropdownMenu.Trigger className="menu-trigger" disabled={!canUndo && !canRedo}>
          Steps
        </DropdownMenu.Trigger>
        <DropdownMenu.Portal>
          <DropdownMenu.Content className="menu" align="end" sideOffset={4} collisionPadding={8}>
            {steps.forward.length > 0 && (
              <DropdownMenu.Group>
                <DropdownMenu.Label className="menu-label">Redo as far as…</DropdownMenu.Label>
                {steps.forward
                  .map((name, i) => (
                    <DropdownMenu.Item
                      // biome-ignore lint/suspicious/noArrayIndexKey: the place in history is what a step is
                      key={i}
                      className="menu-item"
                      onSelect={() => redoSteps(store, i + 1)}
                    >
                      <bdi className="menu-title">{name}</bdi>
                    </DropdownMenu.Item>
                  ))
                  .toReversed()}
              </DropdownMenu.Group>
            )}
            {steps.forward.length > 0 && steps.back.length > 0 && (
              <DropdownMenu.Separator className="menu-line" />
            )}
            {steps.back.length > 0 && (
              <DropdownMenu.Group>
                <DropdownMenu.Label className="menu-label">Undo back to before…</DropdownMenu.Label>
                {steps.back.map((name, i) => (
                  <DropdownMenu.Item
                    // biome-ignore lint/suspicious/noArrayIndexKey: the place in history is what a step is
                    key={i}
                    className="menu-item"
                    onSelect={() => undoSteps(store, i + 1)}
                  >
                    <bdi className="menu-title">{name}</bdi>
                  </DropdownMenu.Item>
                ))}
              </DropdownMenu.Group>
            )}
          </DropdownMenu.Content>
        </DropdownMenu.Portal>
      </DropdownMenu.Root>
    </div>
  );
}
