import { Tabs } from 'radix-ui';
import { type ReactNode, useEffect, useState } from 'react';
import { usePlacing } from '../building/placing.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { PlanSheet } from './drawing/plan-sheet.tsx';
import { PROJECTIONS, type Projection, SHEETS } from './drawing/projection.ts';
import { keepLight } from './light/keep-light.ts';
import { startLightDesk } from './light/worker-light-desk.ts';
import { DatumPlace } from './tools/datum-place.tsx';
import { LightLegend } from './tools/light-legend.tsx';
import { PlanTools } from './tools/plan-tools.tsx';
import { usePlan, usePlanStore } from './use-plan.ts';
import '../styles/lamp-colours.css';
import '../styles/plan.css';
import '../styles/plan-drawing.css';
import '../styles/plan-light.css';

/** Another way to look at where things stand, as a tab beside the drawings. */
export interface MoreView {
  readonly id: string;
  readonly name: string;
  readonly view: ReactNode;
}

const NO_MORE: readonly MoreView[] = [];

/** Where things stand, measured: from above and from two sides. */
export function PlanView({ more = NO_MORE }: { readonly more?: readonly MoreView[] }) {
  const editor = useEditorStore();
  const plan = usePlanStore();
  const projection = usePlan((state) => state.projection);
  const [other, setOther] = useState<string | null>(null);
  useEffect(() => keepLight(editor, plan, startLightDesk), [editor, plan]);
  // Whatever asks for a sheet is shown it, though another view is open.
  useEffect(
    () =>
      plan.subscribe((now, before) => {
        if (now.projection !== before.projection) setOther(null);
      }),
    [plan],
  );

  return (
    <Tabs.Root
      className="plan"
      value={other ?? projection}
      onValueChange={(value) => {
        if (more.some(({ id }) => id === value)) return setOther(value);
        setOther(null);
        plan.setState({ projection: value as Projection });
      }}
    >
      <div className="plan-head-row">
        <Tabs.List className="plan-tabs" aria-label="Where things stand">
          {PROJECTIONS.map((sheet) => (
            <Tabs.Trigger key={sheet} value={sheet}>
              {SHEETS[sheet].name}
            </Tabs.Trigger>
          ))}
          {more.map(({ id, name }) => (
            <Tabs.Trigger key={id} value={id}>
              {name}
            </Tabs.Trigger>
          ))}
        </Tabs.List>
        {other === null && <PlanTools />}
      </div>
      {other === null ? (
        <Tabs.Content value={projection} tabIndex={-1} className="plan-content">
          <PlanSheet key={projection} />
          <SheetHint />
          <DatumPlace />
          <LightLegend />
        </Tabs.Content>
      ) : (
        more
          .filter(({ id }) => id === other)
          .map(({ id, view }) => (
            <Tabs.Content key={id} value={id} tabIndex={-1} className="plan-content">
              {view}
            </Tabs.Content>
          ))
      )}
    </Tabs.Root>
  );
}

/** What the next press does, and what a change is refused for; nothing most of the time. */
function SheetHint() {
  const empty = useEditor(
    ({ scene }) =>
      scene !== null &&
      !scene.document.lamps?.length &&
      !scene.document.solids?.length &&
      !scene.document.figures?.length,
  );
  const placing = usePlacing();
  const onPlan = usePlan((state) => state.projection === 'plan');
  if (placing)
    return (
      <p className="plan-hint">
        {onPlan ? (
          <>
            <bdi>{placing.name}</bdi>: {placing.hint}. Escape puts it away.
          </>
        ) : (
          'What is in hand is put down on the plan: show the plan first. Escape puts it away.'
        )}
      </p>
    );
  if (empty)
    return (
      <p className="plan-hint">
        Nothing stands here yet. What is added to the scene appears on this drawing.
      </p>
    );
  return null;
}
