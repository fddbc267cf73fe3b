import { Popover } from 'radix-ui';
import { lengthText } from '../../figures/length-text.ts';
import { lampChosen } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { LEVELS_m, type PlanState } from '../plan-state.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';

/** What of the light is drawn on the plan, and at which height. */
export function LightChoice() {
  const plan = usePlanStore();
  const shown = usePlan((state) => state.contoursShown || state.clearShown);
  const contoursShown = usePlan((state) => state.contoursShown);
  const clearShown = usePlan((state) => state.clearShown);
  const lamp = useEditor((state) => lampChosen(state)?.name ?? lampChosen(state)?.id);
  const lengths = useEditor((state) => state.lengths);
  const set = (part: Partial<PlanState>) => plan.setState(part);
  return (
    <Popover.Root>
      <Popover.Trigger className="plan-tool" data-marked={shown}>
        Light
      </Popover.Trigger>
      <Popover.Portal>
        <Popover.Content className="plan-popover" align="end" sideOffset={6} collisionPadding={8}>
          <label className="plan-check">
            <input
              type="checkbox"
              checked={contoursShown}
              onChange={(event) => set({ contoursShown: event.target.checked, projection: 'plan' })}
            />
            Lines of equal light
          </label>
          <Choice
            legend="Meter held"
            field="meterHold"
            options={[
              ['up', 'level, facing up'],
              ['camera', 'upright, toward the camera'],
            ]}
          />
          <Choice
            legend="Lines in"
            field="contourScale"
            options={[
              ['stops', 'stops over zero'],
              ['light', 'light'],
            ]}
          />
          <Choice
            legend="Light and edges of beams"
            field="level"
            options={[
              ['ground', `at the ground, y ${lengthText(LEVELS_m.ground, lengths)}`],
              ['face', `at face height, y ${lengthText(LEVELS_m.face, lengths)}`],
            ]}
          />
          <label className="plan-check">
            <input
              type="checkbox"
              checked={clearShown}
              disabled={lamp === undefined}
              onChange={(event) => set({ clearShown: event.target.checked, projection: 'plan' })}
            />
            <span>
              Where <bdi>{lamp ?? 'a lamp'}</bdi> may stand without a glint
            </span>
          </label>
        </Popover.Content>
      </Popover.Portal>
    </Popover.Root>
  );
}

type ChosenField = 'meterHold' | 'contourScale' | 'level';

function Choice<F extends ChosenField>(props: {
  readonly legend: string;
  readonly field: F;
  readonly options: readonly (readonly [PlanState[F], string])[];
}) {
  const { legend, field, options } = props;
  const plan = usePlanStore();
  const value = usePlan((state) => state[field]);
  return (
    <fieldset className="plan-choice">
      <legend>{legend}</legend>
      {options.map(([option, words]) => (
        <label key={option}>
          <input
            type="radio"
            name={`plan-${field}`}
            checked={value === option}
            onChange={() => plan.setState({ [field]: option } as Partial<PlanState>)}
          />
          {words}
        </label>
      ))}
    </fieldset>
  );
}
