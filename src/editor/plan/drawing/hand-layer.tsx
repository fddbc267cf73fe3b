import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { thingNamed } from '../arrange/plan-things.ts';
import { type Handle, handlesOf } from '../hands/handles.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';
import { flat } from './projection.ts';
import { onScreen } from './viewport.ts';

/** What can be taken hold of of the things that are chosen: aim points, points of a path, the knobs for turning and for height. */
export function HandleLayer() {
  const plan = usePlanStore();
  const document = useEditor(documentShown);
  const chosen = useEditor((state) => state.chosen);
  const projection = usePlan((state) => state.projection);
  const scale_px_m = usePlan((state) => state.views[projection]?.scale_px_m);
  usePlan((state) => state.hidden);
  usePlan((state) => state.hiddenKinds);
  if (!document || !scale_px_m) return null;
  const handles = handlesOf(document, chosen, plan.getState(), scale_px_m).filter(
    ({ what }) => what !== 'thing',
  );
  return (
    <g className="plan-handles">
      {handles.map((handle) => {
        const thing = thingNamed(document, handle.id);
        const from = thing && handle.what !== 'path-point' ? flat(thing.position_m, projection) : null;
        const [u, v] = handle.at_m;
        return (
          <g key={`${handle.what} ${handle.id} ${'index' in handle ? handle.index : ''}`}>
            {from && (
              <path
                className={handle.what === 'aim' ? 'plan-aim-line' : 'plan-knob-line'}
                d={`M${from[0]} ${from[1]}L${u} ${v}`}
              />
            )}
            <g transform={`translate(${u} ${v})`}>
              <g className="plan-sign">
                <HandleSign handle={handle} />
              </g>
            </g>
          </g>
        );
      })}
    </g>
  );
}

function HandleSign({ handle }: { readonly handle: Handle }) {
  switch (handle.what) {
    case 'aim':
      return (
        <>
          <circle className="plan-knob" r={9} />
          <path className="plan-cross" d="M-14 0H-4M4 0H14M0-14V-4M0 4V14" />
        </>
      );
    case 'turn':
      return (
        <>
          <circle className="plan-knob" r={10} />
          <path className="plan-knob-arrow" d="M-4.5-2.5A5 5 0 1 1-4 3.4M-6.8 1.2L-4.2 4L-1.6 1.4" />
        </>
      );
    case 'raise':
      return (
        <>
          <circle className="plan-knob" r={10} />
          <path className="plan-knob-arrow" d="M0-6V6M-3-3.2L0-6.2L3-3.2M-3 3.2L0 6.2L3 3.2" />
        </>
      );
    default:
      return <circle className="plan-knob" r={6} />;
  }
}

/** Lines that what is dragged has caught on, and the rectangle that is being drawn round things. */
export function GuideLayer() {
  const guides = usePlan((state) => state.guides);
  const lasso = usePlan((state) => state.lasso);
  const projection = usePlan((state) => state.projection);
  const view = usePlan((state) => state.views[projection]);
  const size = usePlan((state) => state.size);
  if (!view) return null;
  const corners = lasso?.map((corner) => onScreen(view, size, corner));
  return (
    <g>
      {guides.map(({ axis, at_m }) => {
        const [x, y] = onScreen(view, size, [at_m, at_m]);
        const d = axis === 'across' ? `M${x} 0V${size.height_px}` : `M0 ${y}H${size.width_px}`;
        return <path key={`${axis} ${at_m}`} className="plan-guide" d={d} />;
      })}
      {corners && (
        <rect
          className="plan-lasso"
          x={Math.min(corners[0]![0], corners[1]![0])}
          y={Math.min(corners[0]![1], corners[1]![1])}
          width={Math.abs(corners[0]![0] - corners[1]![0])}
          height={Math.abs(corners[0]![1] - corners[1]![1])}
        />
      )}
    </g>
  );
}
