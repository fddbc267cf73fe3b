/** A short ruler in stops around the camera's zero, for a line of a table. */
const REACH_stops = 4;
const HEIGHT_px = 44;
const MIDDLE_px = HEIGHT_px / 2;
/** Room at either end for the figure of the last stop, per cent of the width. */
const END = 5;
const STOPS = Array.from({ length: 2 * REACH_stops + 1 }, (_, i) => i - REACH_stops);

/** Where a number of stops stands, per cent of the width; beyond the ruler, at its end. */
function across(stops: number): number {
  const shown = Math.min(REACH_stops, Math.max(-REACH_stops, stops));
  return END + ((shown + REACH_stops) / (2 * REACH_stops)) * (100 - 2 * END);
}

/** The figures over the ruler's column. */
export function SmallRuleScale() {
  return (
    <svg className="rule" height={20} role="img" aria-label="Scale from 4 stops under to 4 over">
      {STOPS.map((stops) => (
        <text
          key={stops}
          x={`${across(stops)}%`}
          y={15}
          className={stops === 0 ? 'rule-zero-word' : stops % 2 === 0 ? undefined : 'rule-odd'}
        >
          {stops === 0 ? '0' : `${stops < 0 ? '\u2212' : '+'}${Math.abs(stops)}`}
        </text>
      ))}
    </svg>
  );
}

interface SmallRuleProps {
  readonly stops: number;
  readonly plusMinus_stops?: number;
}

/** One needle, with its ± as a bar; an arrow where it stands beyond the ruler's end. */
export function SmallRule({ stops, plusMinus_stops }: SmallRuleProps) {
  const beyond = Math.abs(stops) > REACH_stops ? Math.sign(stops) : 0;
  const from = across(stops - (plusMinus_stops ?? 0));
  const to = across(stops + (plusMinus_stops ?? 0));
  return (
    <svg className="rule" height={HEIGHT_px} aria-hidden="true">
      <line
        className="rule-line"
        x1={`${across(-REACH_stops)}%`}
        x2={`${across(REACH_stops)}%`}
        y1={MIDDLE_px}
        y2={MIDDLE_px}
      />
      {STOPS.map((tick) => (
        <line
          key={tick}
          className={tick === 0 ? 'rule-zero' : 'rule-tick'}
          x1={`${across(tick)}%`}
          x2={`${across(tick)}%`}
          y1={tick === 0 ? 4 : MIDDLE_px - 5}
          y2={tick === 0 ? HEIGHT_px - 4 : MIDDLE_px + 5}
        />
      ))}
      {beyond === 0 && plusMinus_stops !== undefined && (
        <rect className="rule-band" x={`${from}%`} width={`${to - from}%`} y={MIDDLE_px - 5} height={10} />
      )}
      <svg x={`${across(stops)}%`} y={MIDDLE_px} overflow="visible" aria-hidden="true">
        {beyond === 0 ? (
          <rect className="rule-needle" x={-2} width={4} y={-13} height={26} rx={1} />
        ) : (
          <path className="rule-needle" d={`M ${7 * beyond} 0 l ${-13 * beyond} -9 v 18 z`} />
        )}
      </svg>
    </svg>
  );
}
