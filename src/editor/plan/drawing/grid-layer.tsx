import { lengthText } from '../../figures/length-text.ts';
import type { LengthSystem } from '../../store/editor-state.ts';
import { useEditor } from '../../store/use-editor.ts';
import { usePlan } from '../use-plan.ts';
import { gridLines, gridSpacing } from './grid.ts';
import { AXIS_NAMES, SHEETS } from './projection.ts';
import { onScreen, visible } from './viewport.ts';

const LABEL_px = { left: 6, top: 14 };
/** No labels where those of the other axis stand, nor at the foot, where the caption and the scale bar do. */
const EDGE_px = 34;
const FOOT_px = 56;

/** The grid, as fine as has room; the zero of each axis is a line of its own. */
export function GridLayer() {
  const projection = usePlan((state) => state.projection);
  const view = usePlan((state) => state.views[projection]);
  const size = usePlan((state) => state.size);
  const lengths = useEditor((state) => state.lengths);
  if (!view) return null;
  const { low_m, high_m } = visible(view, size);
  const { minor_m, major_m } = gridSpacing(view.scale_px_m, lengths);
  const x = (u: number) => Math.round(onScreen(view, size, [u, 0])[0]) + 0.5;
  const y = (v: number) => Math.round(onScreen(view, size, [0, v])[1]) + 0.5;
  const upright = (spacing_m: number) =>
    gridLines(low_m[0], high_m[0], spacing_m).map((u) => `M${x(u)} 0V${size.height_px}`);
  const level = (spacing_m: number) =>
    gridLines(low_m[1], high_m[1], spacing_m).map((v) => `M0 ${y(v)}H${size.width_px}`);
  const zeros = [
    ...(low_m[0] <= 0 && high_m[0] >= 0 ? [`M${x(0)} 0V${size.height_px}`] : []),
    ...(low_m[1] <= 0 && high_m[1] >= 0 ? [`M0 ${y(0)}H${size.width_px}`] : []),
  ];
  return (
    <g className="plan-grid">
      <path className="plan-grid-minor" d={[...upright(minor_m), ...level(minor_m)].join('')} />
      <path className="plan-grid-major" d={[...upright(major_m), ...level(major_m)].join('')} />
      <path className="plan-grid-zero" d={zeros.join('')} />
    </g>
  );
}

/** The coordinates of the strong lines, along two edges of the sheet. */
export function GridLabels() {
  const projection = usePlan((state) => state.projection);
  const view = usePlan((state) => state.views[projection]);
  const size = usePlan((state) => state.size);
  const lengths = useEditor((state) => state.lengths);
  if (!view) return null;
  const { low_m, high_m } = visible(view, size);
  const { major_m } = gridSpacing(view.scale_px_m, lengths);
  const { across, down, downSign } = SHEETS[projection];
  const x = (u: number) => onScreen(view, size, [u, 0])[0];
  const y = (v: number) => onScreen(view, size, [0, v])[1];
  return (
    <g className="plan-grid-labels">
      {gridLines(low_m[0], high_m[0], major_m)
        .filter((u) => x(u) > EDGE_px && x(u) < size.width_px - EDGE_px)
        .map((u) => (
          <text key={u} x={x(u)} y={LABEL_px.top} textAnchor="middle">
            {`${AXIS_NAMES[across]} ${placeText(u, lengths)}`}
          </text>
        ))}
      {gridLines(low_m[1], high_m[1], major_m)
        .filter((v) => y(v) > EDGE_px && y(v) < size.height_px - FOOT_px)
        .map((v) => (
          <text key={v} x={LABEL_px.left} y={y(v) - 4}>
            {`${AXIS_NAMES[down]} ${placeText(downSign * v + 0, lengths)}`}
          </text>
        ))}
    </g>
  );
}

/** Nought has no unit. */
function placeText(place_m: number, lengths: LengthSystem): string {
  return place_m === 0 ? '0' : lengthText(place_m, lengths);
}

/** A bar as long as the strong lines are apart, for whoever prints or photographs the drawing. */
export function ScaleBar() {
  const projection = usePlan((state) => state.projection);
  const scale_px_m = usePlan((state) => state.views[projection]?.scale_px_m);
  const size = usePlan((state) => state.size);
  const lengths = useEditor((state) => state.lengths);
  if (!scale_px_m) return null;
  const { major_m } = gridSpacing(scale_px_m, lengths);
  const length_px = major_m * scale_px_m;
  const text = lengthText(major_m, lengths);
  return (
    <g
      className="plan-scale"
      transform={`translate(${size.width_px - length_px - 16} ${size.height_px - 14})`}
    >
      <rect className="plan-scale-ground" x={-8} y={-22} width={length_px + 16} height={30} rx={4} />
      <path d={`M0-5V0H${length_px}V-5`} />
      <text x={length_px / 2} y={-7} textAnchor="middle">
        {text}
      </text>
    </g>
  );
}

const AXIS_px = 26;
/** Over the scale bar, clear of its ground. */
const AXES_UP_px = 56;

/** Which way the two axes of the sheet grow. Where north lies is nothing that a scene says. */
export function AxisCross() {
  const projection = usePlan((state) => state.projection);
  const size = usePlan((state) => state.size);
  const { across, down, downSign } = SHEETS[projection];
  const y = size.height_px - AXES_UP_px - (downSign > 0 ? AXIS_px : 0);
  const tip = downSign * AXIS_px;
  return (
    <g className="plan-axes" transform={`translate(${size.width_px - 56} ${y})`}>
      <path
        d={`M0 0H${AXIS_px}m-6-4l6 4l-6 4M0 0V${tip}m-4 ${-6 * downSign}l4 ${6 * downSign}l4 ${-6 * downSign}`}
      />
      <text x={AXIS_px + 5} y={4}>
        {AXIS_NAMES[across]}
      </text>
      <text x={0} y={downSign > 0 ? tip + 14 : tip - 6} textAnchor="middle">
        {AXIS_NAMES[down]}
      </text>
    </g>
  );
}
