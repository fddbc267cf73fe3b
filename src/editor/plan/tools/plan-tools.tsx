import { Toolbar } from 'radix-ui';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { fitAll, fitChosen } from '../drawing/fit.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';
import { ArrangeMenu } from './arrange-menu.tsx';
import { KindsList } from './kinds-list.tsx';
import { LightChoice } from './light-choice.tsx';

/** What is done to the drawing by hand: above it, in one row. */
export function PlanTools() {
  const editor = useEditorStore();
  const plan = usePlanStore();
  const none = useEditor((state) => state.chosen.length === 0);
  const snapping = usePlan((state) => state.snapping);
  const datum = usePlan((state) => state.datum_m !== null);
  const setting = usePlan((state) => state.settingDatum);
  return (
    <Toolbar.Root className="plan-tools" aria-label="Drawing">
      <Toolbar.Button className="plan-tool" onClick={() => fitAll(editor)}>
        Fit all
      </Toolbar.Button>
      <Toolbar.Button className="plan-tool spare" disabled={none} onClick={() => fitChosen(editor)}>
        Fit chosen
      </Toolbar.Button>
      <Toolbar.Button
        className="plan-tool"
        aria-pressed={snapping}
        onClick={() => plan.setState({ snapping: !snapping })}
      >
        Snap
      </Toolbar.Button>
      <Toolbar.Button
        className="plan-tool in-menu"
        aria-pressed={datum || setting}
        onClick={() => plan.setState({ datum_m: null, settingDatum: !(datum || setting) })}
      >
        Measure
      </Toolbar.Button>
      <LightChoice />
      <ArrangeMenu />
      <KindsList />
    </Toolbar.Root>
  );
}
