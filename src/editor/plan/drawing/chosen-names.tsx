import { lengthText } from '../../figures/length-text.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { thingNamed } from '../arrange/plan-things.ts';
import { isHidden, LEVELS_m } from '../plan-state.ts';
import { usePlan } from '../use-plan.ts';
import { shortened } from './names.ts';
import { flat } from './projection.ts';

/** More would cover the drawing. */
const MOST_NAMED = 4;

/** The names of what is chosen, but for lamps, which have theirs beside them. */
export function ChosenNames() {
  const document = useEditor(documentShown);
  const chosen = useEditor((state) => state.chosen);
  const projection = usePlan((state) => state.projection);
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  if (!document || chosen.length > MOST_NAMED) return null;
  return chosen.map((id) => {
    const thing = thingNamed(document, id);
    if (!thing || thing.kind === 'lamps' || isHidden({ hidden, hiddenKinds }, id, thing.kind)) return null;
    const [u, v] = flat(thing.position_m, projection);
    return (
      <g key={id} className="plan-thing chosen" transform={`translate(${u} ${v})`}>
        <g className="plan-sign">
          <text className="plan-name" x={18} y={-12}>
            {shortened(thing.name)}
          </text>
        </g>
      </g>
    );
  });
}

/** A sheet this wide has room for whole sentences beside the scale bar. */
const WIDE_px = 460;

/** What the lines about the chosen lamp are, along the lower edge. */
export function BeamCaption() {
  const document = useEditor(documentShown);
  const chosen = useEditor((state) => state.chosen);
  const lengths = useEditor((state) => state.lengths);
  const projection = usePlan((state) => state.projection);
  const level = usePlan((state) => state.level);
  const size = usePlan((state) => state.size);
  const lit = document?.lamps?.some(({ id, on }) => chosen.includes(id) && on !== false);
  if (!lit) return null;
  const wide = size.width_px >= WIDE_px;
  const where = level === 'ground' ? 'the ground' : `y ${lengthText(LEVELS_m[level], lengths)}`;
  const beam = wide ? 'Beam, of its peak: whole 50 %, broken 10 %' : 'Beam 50 %, broken 10 %';
  const cut = `${wide ? 'Strong: where they meet' : 'Strong: on'} ${where}`;
  // Two short lines: the scale bar stands in the other corner.
  return (
    <text className="plan-caption" y={size.height_px - 12}>
      <tspan x={10} dy="-1.25em">
        {beam}
      </tspan>
      <tspan x={10} dy="1.25em">
        {projection === 'plan' && cut}
      </tspan>
    </text>
  );
}
