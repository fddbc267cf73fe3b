import type { ReactNode } from 'react';
import { fcFromLx } from '../../../core/units/illuminance.ts';
import { clearRegionSheet } from '../../../paperwork/clear-region-sheet.ts';
import { lengthText } from '../../figures/length-text.ts';
import { numberText } from '../../figures/number-text.ts';
import { cameraShown, documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { planThings } from '../arrange/plan-things.ts';
import { useCurrent } from '../drawing/light-layer.tsx';
import type { LightLattice } from '../light/light-lattice.ts';
import { LEVELS_m, type PlanState } from '../plan-state.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';

/** What the lines on the plan mean, how far they are, and what is known of the clear region in words. */
export function LightLegend() {
  const contoursShown = usePlan((state) => state.contoursShown);
  const clearShown = usePlan((state) => state.clearShown);
  const projection = usePlan((state) => state.projection);
  if (projection !== 'plan' || !(contoursShown || clearShown)) return null;
  return (
    <div className="plan-legend">
      {contoursShown && <ContoursLegend />}
      {clearShown && <ClearLegend />}
    </div>
  );
}

function ContoursLegend() {
  const answer = usePlan((state) => state.contours.answer);
  const hold = usePlan((state) => state.meterHold);
  const level = usePlan((state) => state.level);
  const scale = usePlan((state) => state.contourScale);
  const camera = useEditor((state) => cameraShown(state)?.name ?? cameraShown(state)?.id ?? '');
  const unit = useEditor((state) => state.unit);
  const lengths = useEditor((state) => state.lengths);
  const muted = useEditor((state) => state.muted.size);
  const light = answer?.found ?? null;
  const zero = light && (unit === 'lx' ? light.zero_lx : fcFromLx(light.zero_lx));
  return (
    <Part kind="contours" name="Lines of equal light" off={{ contoursShown: false }}>
      {answer && !answer.found && <p role="alert">{answer.why}</p>}
      {light && zero !== null && (
        <p>
          Straight light on a flat cell held {hold === 'up' ? 'level' : 'upright toward the camera'}, at y{' '}
          {lengthText(LEVELS_m[level], lengths)}
          {scale === 'stops' ? (
            <>
              ; stops over the zero of <bdi>{camera}</bdi>, {numberText(zero, zero < 10 ? 1 : 0)} {unit}
            </>
          ) : (
            `; in ${unit}`
          )}
          ; ±{numberText(light.uncertainty_stops, 1)} stop. Worked out every{' '}
          {lengthText(spacingOf(light), lengths)}, shadows no finer. No bounce, no glow of haze
          {muted > 0 ? '; muted lamps left out' : ''}.
        </p>
      )}
    </Part>
  );
}

function spacingOf({ lattice }: LightLattice): number {
  return (lattice.high[0] - lattice.low[0]) / (lattice.columns - 1);
}

function ClearLegend() {
  const answer = usePlan((state) => state.clear.answer);
  const document = useEditor(documentShown);
  const region = answer?.found ?? null;
  const names = new Map(document ? planThings(document).map(({ id, name }) => [id, name]) : []);
  const nameOf = (id: string) => names.get(id) ?? id;
  const sheet = region && clearRegionSheet(region, nameOf(region.lamp), nameOf);
  return (
    <Part kind="clear" name="Clear of glints" off={{ clearShown: false }}>
      {answer && !answer.found && <p role="alert">{answer.why}</p>}
      {sheet && (
        <details>
          <summary>
            <bdi>{sheet.heading}</bdi>. {sheet.verdict}
          </summary>
          <ul>
            {[...sheet.lines, ...sheet.footer].map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          {region?.stops && (
            <p>
              Thin lines: what moving it there does to the light at <bdi>{region.stops.name}</bdi>, in stops.
            </p>
          )}
        </details>
      )}
    </Part>
  );
}

function Part(props: {
  readonly kind: 'contours' | 'clear';
  readonly name: string;
  /** What ends it, and the work for it. */
  readonly off: Partial<PlanState>;
  readonly children: ReactNode;
}) {
  const { kind, name, off, children } = props;
  const plan = usePlanStore();
  const progress = usePlan((state) => state[kind].progress);
  const failure = usePlan((state) => state[kind].failure);
  const hasAnswer = usePlan((state) => state[kind].answer !== null);
  const current = useCurrent(kind);
  const again = () => {
    plan.setState(off);
    plan.setState(kind === 'contours' ? { contoursShown: true } : { clearShown: true });
  };
  return (
    <section
      className="plan-legend-part"
      aria-label={name}
      data-current={current}
      data-busy={progress !== null}
    >
      <div className={current ? undefined : 'stale'}>{children}</div>
      {failure !== null && (
        <p role="alert">
          It stopped ({failure}).{' '}
          <button type="button" onClick={again}>
            Start again
          </button>
        </p>
      )}
      {failure === null && (
        <div className={progress === null && current ? 'plan-progress done' : 'plan-progress'}>
          <progress aria-label={`${name}: how far`} max={1} value={progress ?? 0} />
          <span className="quiet">
            {progress === null ? 'of the scene as it was' : `${Math.floor(100 * progress)} %`}
            {progress !== null && hasAnswer && !current ? '; drawn is the scene as it was' : ''}
          </span>
          <button type="button" onClick={() => plan.setState(off)}>
            Cancel
          </button>
        </div>
      )}
    </section>
  );
}
