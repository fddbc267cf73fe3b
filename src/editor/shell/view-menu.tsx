import { DropdownMenu } from 'radix-ui';
import type { IlluminanceUnit } from '../../paperwork/exposure-sheet.ts';
import { MenuChoice } from '../panels/menu-choice.tsx';
import type { LengthSystem, Scheme } from '../store/editor-state.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';

/** How figures and the page itself are shown: nothing of the scene. */
export function ViewMenu() {
  const store = useEditorStore();
  const unit = useEditor((state) => state.unit);
  const lengths = useEditor((state) => state.lengths);
  const scheme = useEditor((state) => state.scheme);
  return (
    <DropdownMenu.Root>
      <DropdownMenu.Trigger className="menu-trigger">
        Units<span className="where-wide"> and light</span>
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className="menu" sideOffset={4} align="end">
          <MenuChoice
            name="Illuminance in"
            value={unit}
            of={[
              ['lx', 'Lux'],
              ['fc', 'Foot-candles'],
            ]}
            onChange={(next) => store.setState({ unit: next as IlluminanceUnit })}
          />
          <MenuChoice
            name="Lengths in"
            value={lengths}
            of={[
              ['metric', 'Metres'],
              ['imperial', 'Feet and inches'],
            ]}
            onChange={(next) => store.setState({ lengths: next as LengthSystem })}
          />
          <MenuChoice
            name="This page"
            value={scheme}
            of={[
              ['night', 'For the night: dark, no blue'],
              ['day', 'For the day: light'],
            ]}
            onChange={(next) => store.setState({ scheme: next as Scheme })}
          />
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}
