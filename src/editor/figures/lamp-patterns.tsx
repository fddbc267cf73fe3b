import { LAMP_COLOURS, LAMP_PATTERNS, type LampPattern, patternId } from './lamp-colour.ts';

const SIZE = 6;
const LINES: Readonly<Record<LampPattern, string>> = {
  plain: '',
  stripes: 'M-1.5 1.5L1.5-1.5M0 6L6 0M4.5 7.5L7.5 4.5',
  dots: 'M1.5 1.5h.01M4.5 4.5h.01',
  bars: 'M0 3H6',
  cross: 'M-1.5 1.5L1.5-1.5M0 6L6 0M4.5 7.5L7.5 4.5M-1.5 4.5L1.5 7.5M0 0L6 6M4.5-1.5L7.5 1.5',
};

/** The hatched fills of lamps, for every drawing of the page; to be mounted once. */
export function LampPatterns() {
  return (
    <svg className="out-of-sight" aria-hidden="true">
      <defs>
        {Array.from({ length: LAMP_COLOURS }, (_, i) => i + 1).flatMap((number) =>
          LAMP_PATTERNS.filter((pattern) => pattern !== 'plain').map((pattern) => (
            <pattern
              key={patternId(number, pattern)}
              id={patternId(number, pattern)}
              width={SIZE}
              height={SIZE}
              patternUnits="userSpaceOnUse"
            >
              <rect width={SIZE} height={SIZE} style={{ fill: `var(--lamp-${number})` }} />
              <path
                d={LINES[pattern]}
                style={{ stroke: `var(--lamp-${number}-hatch)` }}
                strokeWidth={pattern === 'dots' ? 2 : 1.3}
                strokeLinecap={pattern === 'dots' ? 'round' : 'butt'}
                fill="none"
              />
            </pattern>
          )),
        )}
      </defs>
    </svg>
  );
}
