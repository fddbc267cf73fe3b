import { Tabs } from 'radix-ui';
import { type ComponentType, lazy, Suspense } from 'react';
import { ANSWER_PANELS } from '../answers/panels.tsx';
import { LampList } from '../panels/lamp-list.tsx';
import { ReadingParts } from '../panels/reading-parts.tsx';
import { Readings } from '../panels/readings.tsx';
import { Warnings } from '../panels/warnings.tsx';
import { openPanel, useShell } from './shell-state.ts';

interface SidePanel {
  readonly id: string;
  readonly name: string;
  readonly Component: ComponentType;
}

const Properties = lazy(async () => ({ default: (await import('../properties/properties.tsx')).Properties }));
const Building = lazy(async () => ({ default: (await import('../building/building.tsx')).Building }));

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
      {SIDE_PANELS.map(({ id, name, Component }) => (
        <Tabs.Content key={id} value={id} className="side">
          <Suspense fallback={<p className="quiet">Opening {name}…</p>}>
            <Component />
          </Suspense>
        </Tabs.Content>
      ))}
    </Tabs.Root>
  );
}
