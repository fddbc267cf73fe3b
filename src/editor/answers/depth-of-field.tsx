import type { LensReport } from '../../scene/framing/lens-report.ts';
import { lengthText } from '../figures/length-text.ts';
import { useEditor } from '../store/use-editor.ts';
import { focusStrip } from './focus-strip.ts';

const WIDTH = 600;
const HEIGHT = 62;
const LINE = 30;

/** Distances from the lens, near ones drawn wider: what is sharp, where the focus is, where the marks are. */
export function DepthOfField({ report }: { readonly report: LensReport }) {
  const lengths = useEditor((state) => state.lengths);
  const { near, far, focus, ticks, marks } = focusStrip(report);
  const { near_m, far_m } = report.lens;
  const words = `Sharp from ${lengthText(near_m, lengths)} to ${far_m === null ? 'infinity' : lengthText(far_m, lengths)}`;
  return (
    <svg className="focus-strip" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words}>
      <rect className="strip-sharp" x={near * WIDTH} y={LINE - 7} width={(far - near) * WIDTH} height={14} />
      <line className="strip-line" x1={0} x2={WIDTH} y1={LINE} y2={LINE} />
      {ticks.map(({ distance_m, at }) => (
        <g key={distance_m}>
          <line className="strip-line" x1={at * WIDTH} x2={at * WIDTH} y1={LINE} y2={LINE + 12} />
          <text x={at * WIDTH} y={LINE + 25} textAnchor="middle">
            {lengthText(distance_m, lengths)}
          </text>
        </g>
      ))}
      <line className="strip-focus" x1={focus * WIDTH} x2={focus * WIDTH} y1={LINE - 14} y2={LINE + 9} />
      {marks.map(({ id, name, at, sharp }) => (
        <circle
          key={id}
          className={sharp ? 'strip-mark' : 'strip-mark soft'}
          cx={at * WIDTH}
          cy={LINE - 18}
          r={5}
        >
          <title>{name}</title>
        </circle>
      ))}
    </svg>
  );
}
