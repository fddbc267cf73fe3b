import { useRef } from 'react';
import type { LensReport } from '../../scene/framing/lens-report.ts';
import { lengthText } from '../figures/length-text.ts';
import { useEditor } from '../store/use-editor.ts';
import { focusStrip } from './focus-strip.ts';
import { useChartWidth } from './use-chart-width.ts';

/** What a distance takes up along the strip, with the gap beside it. */
const WORD_px = { metric: 54, imperial: 84 };
const HEIGHT = 62;
const LINE = 30;

/** Distances from the lens, near ones drawn wider: what is sharp, where the focus is, where the marks are. */
export function DepthOfField({ report }: { readonly report: LensReport }) {
  const lengths = useEditor((state) => state.lengths);
  const around = useRef<HTMLDivElement>(null);
  const width = useChartWidth(around);
  const { near, far, focus, ticks, marks } = focusStrip(report, WORD_px[lengths] / width);
  const { near_m, far_m } = report.lens;
  const words = `Sharp from ${lengthText(near_m, lengths)} to ${far_m === null ? 'infinity' : lengthText(far_m, lengths)}`;
  return (
    <div ref={around}>
      <svg
        className="focus-strip"
        style={{ maxWidth: width }}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label={words}
      >
        <rect
          className="strip-sharp"
          x={near * width}
          y={LINE - 7}
          width={(far - near) * width}
          height={14}
        />
        <line className="strip-line" x1={0} x2={width} y1={LINE} y2={LINE} />
        {ticks.map(({ distance_m, at }) => (
          <g key={distance_m}>
            <line className="strip-line" x1={at * width} x2={at * width} y1={LINE} y2={LINE + 12} />
            <text x={at * width} y={LINE + 25} textAnchor="middle">
              {lengthText(distance_m, lengths)}
            </text>
          </g>
        ))}
        <line className="strip-focus" x1={focus * width} x2={focus * width} y1={LINE - 14} y2={LINE + 9} />
        {marks.map(({ id, name, at, sharp }) => (
          <circle
            key={id}
            className={sharp ? 'strip-mark' : 'strip-mark soft'}
            cx={at * width}
            cy={LINE - 18}
            r={5}
          >
            <title>{name}</title>
          </circle>
        ))}
      </svg>
    </div>
  );
}
