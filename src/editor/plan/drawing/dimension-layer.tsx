import { lengthText } from '../../figures/length-text.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { dimensionsFrom } from '../arrange/dimensions.ts';
import { type PlanThing, thingNamed } from '../arrange/plan-things.ts';
import { usePlan } from '../use-plan.ts';
import { flat } from './projection.ts';

/** More would lie over each other. */
const MOST_MEASURED = 6;
const NONE: readonly PlanThing[] = [];
/** Less than a tape would show. */
const SAME_m = 0.005;
const OFF_px = 34;
const LINE_px = 17;

/** From the point that is measured from to what is chosen: along both axes, in height, and straight. */
export function DimensionLayer() {
  const datum_m = usePlan((state) => state.datum_m);
  const projection = usePlan((state) => state.projection);
  const document = useEditor(documentShown);
  const chosen = useEditor((state) => state.chosen);
  const lengths = useEditor((state) => state.lengths);
  if (!datum_m) return null;
  const [fromU, fromV] = flat(datum_m, projection);
  const things = document
    ? chosen.slice(-MOST_MEASURED).flatMap((id) => thingNamed(document, id) ?? [])
    : NONE;
  const signedText = (length_m: number) => `${length_m > 0 ? '+' : ''}${lengthText(length_m, lengths)}`;
  return (
    <g className="plan-dimensions">
      {things.map(({ id, position_m }) => {
        const [u, v] = flat(position_m, projection);
        const { dx_m, dy_m, dz_m, level_m, straight_m } = dimensionsFrom(datum_m, position_m);
        const straight =
          Math.abs(straight_m - level_m) < SAME_m ? '' : `, straight ${lengthText(straight_m, lengths)}`;
        const lines = [
          `Δx ${signedText(dx_m)}, Δz ${signedText(dz_m)}, height ${signedText(dy_m)}`,
          `level ${lengthText(level_m, lengths)}${straight}`,
        ];
        const below = v >= fromV;
        return (
          <g key={id}>
            <path className="plan-leg" d={`M${fromU} ${fromV}H${u}V${v}`} />
            <path className="plan-straight" d={`M${fromU} ${fromV}L${u} ${v}`} />
            <g transform={`translate(${u} ${v})`}>
              <g className="plan-sign">
                {lines.map((line, i) => (
                  <text
                    key={line}
                    className="plan-measure"
                    y={below ? OFF_px + i * LINE_px : -OFF_px + (i - 1) * LINE_px}
                    textAnchor="middle"
                  >
                    {line}
                  </text>
                ))}
              </g>
            </g>
          </g>
        );
      })}
      <g transform={`translate(${fromU} ${fromV})`}>
        <g className="plan-sign">
          <circle className="plan-datum" r={7} />
          <path className="plan-datum" d="M-12 0H12M0-12V12" />
        </g>
      </g>
    </g>
  );
}
