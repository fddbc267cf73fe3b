import { useMemo, useRef } from 'react';
import type { SkyCurve, SkyPoint } from '../worker/answer-sky-curve.ts';
import { nightStrip } from './night-strip.ts';
import { useChartWidth } from './use-chart-width.ts';

const HEIGHT = 236;
/** Narrower, every second time of day has its word. */
const ROOM_FOR_ALL_px = 460;
const LEFT = 44;
const TOP = 8;
const FLOOR = 200;
/** What is drawn of the sky and of what is under the horizon. */
const HIGHEST_deg = 60;
const LOWEST_deg = -30;
const TWILIGHTS = [
  { under_deg: -6, word: '−6°' },
  { under_deg: -12, word: '−12°' },
  { under_deg: -18, word: '−18°' },
];

/** Where sun and moon stand all through the night; filled where it is dark enough. */
export function NightChart({ sky }: { readonly sky: SkyCurve }) {
  const figure = useRef<HTMLElement>(null);
  const width = useChartWidth(figure);
  const strip = useMemo(() => nightStrip(sky), [sky]);
  const everyTick = width < ROOM_FOR_ALL_px ? 2 : 1;
  const x = (hour: number) => LEFT + ((width - LEFT - 8) * hour) / strip.hours;
  const y = (deg: number) => {
    const shown = Math.min(HIGHEST_deg, Math.max(LOWEST_deg, deg));
    return TOP + ((FLOOR - TOP) * (HIGHEST_deg - shown)) / (HIGHEST_deg - LOWEST_deg);
  };
  const line = (of: (point: SkyPoint) => number) =>
    sky.curve
      .map(
        (point, i) => `${i === 0 ? 'M' : 'L'}${x(point.sinceNoon_h).toFixed(1)} ${y(of(point)).toFixed(1)}`,
      )
      .join('');
  return (
    <figure className="night-chart" ref={figure}>
      <svg
        style={{ maxWidth: width }}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label="Altitude of sun and moon from noon to noon"
      >
        {strip.dark.map(({ from_h, to_h }) => (
          <rect
            key={from_h}
            className="night-dark"
            x={x(from_h)}
            width={x(to_h) - x(from_h)}
            y={TOP}
            height={FLOOR - TOP}
          />
        ))}
        {TWILIGHTS.map(({ under_deg, word }) => (
          <g key={word}>
            <line className="night-grid" x1={LEFT} x2={width - 8} y1={y(under_deg)} y2={y(under_deg)} />
            <text x={LEFT - 6} y={y(under_deg) + 4} textAnchor="end">
              {word}
            </text>
          </g>
        ))}
        <line className="night-horizon" x1={LEFT} x2={width - 8} y1={y(0)} y2={y(0)} />
        <text x={LEFT - 6} y={y(0) + 4} textAnchor="end">
          0°
        </text>
        <text x={LEFT - 6} y={y(30) + 4} textAnchor="end">
          30°
        </text>
        {strip.ticks
          .filter((_, i) => i % everyTick === 0)
          .map(({ at_h, time }) => (
            <g key={time}>
              <line className="night-grid" x1={x(at_h)} x2={x(at_h)} y1={FLOOR} y2={FLOOR + 6} />
              <text x={x(at_h)} y={FLOOR + 20} textAnchor="middle">
                {time}
              </text>
            </g>
          ))}
        <path className="night-sun" d={line(({ sun_deg }) => sun_deg)} />
        <path className="night-moon" d={line(({ moon_deg }) => moon_deg)} />
        <line className="night-start" x1={x(strip.start_h)} x2={x(strip.start_h)} y1={TOP} y2={FLOOR} />
        <text className="night-word" x={x(strip.start_h) + 5} y={TOP + 14}>
          start
        </text>
      </svg>
      <figcaption className="quiet">
        <span className="key-line sun" /> sun <span className="key-line moon" /> moon{' '}
        {strip.dark.length > 0 && (
          <span className="key-words">
            <span className="key-dark" /> dark enough
          </span>
        )}
      </figcaption>
    </figure>
  );
}
