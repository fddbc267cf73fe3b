import { DropdownMenu, ToggleGroup } from 'radix-ui';
import { useAnswers } from '../answers/use-answers.ts';
import { MenuChoice } from '../panels/menu-choice.tsx';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { ExportDialog } from './export-dialog.tsx';
import {
  keepToCompare,
  LINE_NAMES,
  MAIN_LOOKS,
  OTHER_LOOKS,
  OVERLAY_NAMES,
  setOverlay,
} from './frame-actions.ts';
import type { Lines, Look } from './frame-state.ts';
import { useFrame, useFrameStore } from './use-frame.ts';

/** How the frame is looked at. */
export function FrameTools() {
  const frame = useFrameStore();
  const look = useFrame((state) => state.look);
  const lines = useFrame((state) => state.lines);
  const marksEnds = useFrame((state) => state.marksEnds);
  const smoothed = useFrame((state) => state.smoothed);
  const paused = useFrame((state) => state.paused);
  const reference = useFrame((state) => state.reference);
  const drawn = useFrame((state) => state.grab !== null);
  const title = useEditor((state) => state.scene?.document.title ?? '');
  const store = useEditorStore();
  const wanted = useAnswers((state) => state.wanted);

  return (
    <header className="frame-tools">
      <h2>Frame</h2>
      <ToggleGroup.Root
        type="single"
        className="toggles"
        aria-label="Shown as"
        value={look}
        onValueChange={(next) => next && frame.setState({ look: next as Look })}
      >
        {MAIN_LOOKS.map(([value, name]) => (
          <ToggleGroup.Item key={value} value={value}>
            {name}
          </ToggleGroup.Item>
        ))}
      </ToggleGroup.Root>
      <DropdownMenu.Root>
        <DropdownMenu.Trigger className="menu-trigger">Over it</DropdownMenu.Trigger>
        <DropdownMenu.Portal>
          <DropdownMenu.Content className="menu" sideOffset={4} align="end">
            {OVERLAY_NAMES.map(([overlay, name]) => (
              <Tick
                key={overlay}
                checked={wanted.has(overlay)}
                onChange={(on) => setOverlay(store, overlay, on)}
              >
                {name}
              </Tick>
            ))}
            <Tick checked={marksEnds} onChange={(on) => frame.setState({ marksEnds: on })}>
              Clipped and lost in noise
            </Tick>
            <Tick checked={smoothed} onChange={(on) => frame.setState({ smoothed: on })}>
              Grain smoothed for the eye
            </Tick>
            <DropdownMenu.Separator className="menu-line" />
            <MenuChoice
              value={lines}
              of={LINE_NAMES}
              onChange={(next) => frame.setState({ lines: next as Lines })}
            />
            <DropdownMenu.Separator className="menu-line" />
            <MenuChoice
              value={look}
              of={OTHER_LOOKS}
              onChange={(next) => frame.setState({ look: next as Look })}
            />
            <DropdownMenu.Separator className="menu-line" />
            <DropdownMenu.Item
              className="menu-item"
              disabled={!drawn}
              onSelect={() => void keepToCompare(frame, title)}
            >
              Keep this frame to compare
            </DropdownMenu.Item>
            <DropdownMenu.Item
              className="menu-item"
              disabled={!reference}
              onSelect={() => frame.setState({ reference: null })}
            >
              Let the kept frame go
            </DropdownMenu.Item>
          </DropdownMenu.Content>
        </DropdownMenu.Portal>
      </DropdownMenu.Root>
      <ExportDialog />
      <button type="button" aria-pressed={paused} onClick={() => frame.setState({ paused: !paused })}>
        {paused ? 'Go on' : 'Hold'}
      </button>
    </header>
  );
}

function Tick({
  checked,
  onChange,
  children,
}: {
  readonly checked: boolean;
  readonly onChange: (on: boolean) => void;
  readonly children: React.ReactNode;
}) {
  return (
    <DropdownMenu.CheckboxItem
      className="menu-item"
      checked={checked}
      onCheckedChange={onChange}
      onSelect={(event) => event.preventDefault()}
    >
      <DropdownMenu.ItemIndicator className="menu-tick">✓</DropdownMenu.ItemIndicator>
      {children}
    </DropdownMenu.CheckboxItem>
  );
}
