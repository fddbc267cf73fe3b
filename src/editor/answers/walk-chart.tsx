import { useMemo, useRef } from 'react';
import type { WalkReport } from '../../scene/walk/walk-report.ts';
import { lampSign } from '../figures/lamp-colour.ts';
import { useEditor } from '../store/use-editor.ts';
import { useChartWidth } from './use-chart-width.ts';
import { walkStrip } from './walk-strip.ts';

const LEFT = 44;
const RIGHT = 12;
const TOP = 10;
const CHART = 190;
const LANE = 20;

interface WalkChartProps {
  readonly report: WalkReport;
  readonly step: number;
  readonly onStep: (step: number) => void;
}

/** Stops along the walk, all light and the strongest lamps alone; under them when the walker is in frame and what it shades. */
export function WalkChart({ report, step, onStep }: WalkChartProps) {
  const figure = useRef<HTMLElement>(null);
  const width = useChartWidth(figure);
  const lamps = useEditor((state) => state.scene?.document.lamps);
  const strip = useMemo(() => walkStrip(report), [report]);
  const { low, high, from_s, to_s } = strip;
  const x = (t_s: number) => LEFT + ((width - LEFT - RIGHT) * (t_s - from_s)) / Math.max(to_s - from_s, 1e-9);
  const y = (stops: number) => TOP + (CHART * (high - stops)) / (high - low);
  const height = TOP + CHART + 26 + LANE * strip.lanes.length + 6;
  const path = (line: readonly (readonly [number, number])[]) =>
    line.map(([t, stops], i) => `${i === 0 ? 'M' : 'L'}${x(t).toFixed(1)} ${y(stops).toFixed(1)}`).join('');
  const chosen = report.steps[step]!;
  const moveTo = (clientX: number, box: DOMRect) => {
    const share = ((clientX - box.left) / box.width) * width;
    const t_s = from_s + ((to_s - from_s) * (share - LEFT)) / (width - LEFT - RIGHT);
    const nearest = report.steps.findIndex((one) => one.t_s >= t_s - strip.step_s / 2);
    onStep(nearest < 0 ? report.steps.length - 1 : nearest);
  };
  return (
    <figure ref={figure}>
      <svg
        className="walk-chart"
        style={{ maxWidth: width }}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`Stops along ${report.name}, from ${low} to ${high}`}
        onPointerMove={(event) => {
          if (event.buttons > 0 || event.pointerType === 'mouse')
            moveTo(event.clientX, event.currentTarget.getBoundingClientRect());
        }}
        onPointerDown={(event) => moveTo(event.clientX, event.currentTarget.getBoundingClientRect())}
      >
        {strip.rungs.map((stops) => (
          <g key={stops}>
            <line
              className={stops === 0 ? 'walk-zero' : 'walk-grid'}
              x1={LEFT}
              x2={width - RIGHT}
              y1={y(stops)}
              y2={y(stops)}
            />
            <text x={LEFT - 6} y={y(stops) + 4} textAnchor="end">
              {stops > 0 ? `+${stops}` : String(stops).replace('-', '\u2212')}
            </text>
          </g>
        ))}
        <path className="walk-band" d={bandPath(strip.all, strip.input, x, y)} />
        {strip.lamps.map(({ id, stretches, peak: [t_s, stops] }) => {
          const sign = lampSign({ lamps }, id);
          return (
            <g key={id}>
              <path className="walk-lamp" d={stretches.map(path).join('')} style={{ stroke: sign.colour }} />
              <text
                className="walk-word"
                x={Math.min(x(t_s), width - RIGHT - 8)}
                y={y(stops) - 5}
                textAnchor="middle"
              >
                {sign.initial}
              </text>
            </g>
          );
        })}
        <path className="walk-all" d={path(strip.all)} />
        {strip.seconds.map((t_s) => (
          <g key={t_s}>
            <line className="walk-grid" x1={x(t_s)} x2={x(t_s)} y1={TOP + CHART} y2={TOP + CHART + 6} />
            <text x={x(t_s)} y={TOP + CHART + 19} textAnchor="middle">
              {t_s} s
            </text>
          </g>
        ))}
        {strip.lanes.map(({ key, word, spans, kind }, lane) => (
          <g key={key} transform={`translate(0 ${TOP + CHART + 28 + lane * LANE})`}>
            {spans.map(([from, to]) => (
              <rect
                key={from}
                className={`walk-${kind}`}
                x={x(from)}
                width={Math.max(2, x(to) - x(from))}
                y={2}
                height={LANE - 6}
                rx={2}
              />
            ))}
            <text className="walk-word" x={LEFT + 4} y={LANE - 8}>
              {word}
            </text>
          </g>
        ))}
        <line className="walk-now" x1={x(chosen.t_s)} x2={x(chosen.t_s)} y1={TOP} y2={TOP + CHART} />
      </svg>
      <figcaption className="quiet">
        Whole line: all light, and its ±. Broken: a lamp alone, by its initial. 0 is the camera's zero.
      </figcaption>
    </figure>
  );
}

function bandPath(
  all: readonly (readonly [number, number])[],
  input: readonly number[],
  x: (t_s: number) => number,
  y: (stops: number) => number,
): string {
  const edge = (sign: 1 | -1) =>
    all.map(([t, stops], i) => `${x(t).toFixed(1)} ${y(stops + sign * input[i]!).toFixed(1)}`);
  return `M${[...edge(1), ...edge(-1).reverse()].join('L')}Z`;
}
