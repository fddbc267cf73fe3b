import { amps } from '../../paperwork/power-words.ts';
import type { SupplyReport } from '../../scene/power/supply-report.ts';

/** Each supply's current along what it carries for hours; what is past that sticks out beyond the line. */
export function SupplyBars({ supplies }: { readonly supplies: readonly SupplyReport[] }) {
  const known = supplies.filter((supply) => supply.limit_A !== null);
  if (known.length === 0) return null;
  return (
    <ul className="supply-bars" aria-label="How full the supplies are">
      {known.map(({ id, name, current_A, limit_A, over, trips }) => (
        <li key={id} className={over ? 'fault' : ''}>
          <bdi>{name}</bdi>
          <span className="supply-bar" aria-hidden="true">
            <span style={{ width: `${Math.min(100, (LINE_percent * current_A) / limit_A!)}%` }} />
          </span>
          <span className="figure">
            {amps(current_A)} of {amps(limit_A!)}
            {over && <strong> {trips ? 'TRIPS' : 'OVER'}</strong>}
          </span>
        </li>
      ))}
    </ul>
  );
}

/** Where the line for hours stands along the bar: the room beyond it is for what is over. */
const LINE_percent = 75;
