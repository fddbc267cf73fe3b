import { Tabs } from 'radix-ui';
import type { ComponentType } from 'react';
import { ANSWER_PANELS } from '../answers/panels.tsx';
import { Building } from '../building/building.tsx';
import { LampList } from '../panels/lamp-list.tsx';
import { ReadingParts } from '../panels/reading-parts.tsx';
import { Readings } from '../panels/readings.tsx';
import { Warnings } from '../panels/warnings.tsx';
import { Properties } from '../properties/properties.tsx';
import { openPanel, useShell } from './shell-state.ts';

interface SidePanel {
  readonly id: string;
  readonly name: string;
  readonly Component: ComponentType;
}

function Lamps() {
  return (
    <>
      <LampList />
      <Warnings />
    </>
  );
}

function AllReadings() {
  return (
    <>
      <Readings />
      <ReadingParts />
    </>
  );
}

/** What may stand beside the plan, in the order of its tabs. */
export const SIDE_PANELS: readonly SidePanel[] = [
  { id: 'chosen', name: 'Chosen', Component: Properties },
  { id: 'build', name: 'Build', Component: Building },
  { id: 'lamps', name: 'Lamps', Component: Lamps },
  { id: 'readings', name: 'Readings', Component: AllReadings },
  ...ANSWER_PANELS,
];

/** One panel at a time, chosen by the tabs at its edge. */
export function SidePanels() {
  // What a past version remembered may be gone.
  const asked = useShell((state) => state.panel);
  const panel = SIDE_PANELS.some(({ id }) => id === asked) ? asked : 'chosen';
  return (
    <Tabs.Root className="side-panels" orientation="vertical" value={panel} onValueChange={openPanel}>
      <Tabs.List className="side-tabs" aria-label="Panels">
        {SIDE_PANELS.map(({ id, name }) => (
          <Tabs.Trigger key={id} value={id}>
            {name}
          </Tabs.Trigger>
        ))}
      </Tabs.List>
      {SIDE_PANELS.map(({ id, Component }) => (
        <Tabs.Content key={id} value={id} className="side">
          <Component />
        </Tabs.Content>
      ))}
    </Tabs.Root>
  );
}
