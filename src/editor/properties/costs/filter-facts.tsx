import type { Filter } from '../../../scene/schema/filter.ts';
import type { FactsProps } from '../field.ts';
import { Swatch } from '../fields/swatch.tsx';
import { useThing } from '../use-thing.ts';
import { Fact, Facts } from './facts.tsx';
import { filterCost, kelvinText, lossText } from './filter-cost.ts';
import { filterHex } from './swatch-colour.ts';

const LAMPS = [
  ['On daylight, 5600 K', { kind: 'daylight', cct_K: 5600 }],
  ['On tungsten, 3200 K', { kind: 'planck', cct_K: 3200 }],
] as const;

/** What a filter takes from the two lamps that swatch books know, and what becomes of their colour. */
export function FilterFacts({ id }: FactsProps) {
  const filter = useThing<Filter>(id);
  if (!filter) return null;
  const grey = filter.kind === 'neutral' || filter.kind === 'net' || filter.kind === 'diffusion';
  return (
    <Facts>
      {LAMPS.map(([name, lamp]) => {
        const cost = filterCost(lamp, [filter]);
        return (
          <Fact
            key={name}
            name={name}
            note={cost.duv !== null && Math.abs(cost.duv) > 0.005 ? tintText(cost.duv) : undefined}
          >
            {lossText(cost.loss_stops)} ± {cost.loss_uncertainty_stops.toFixed(1)}
            {!grey && `, ${kelvinText(cost.cct_K)}`}
          </Fact>
        );
      })}
      <Fact name="A white card" note="balanced for daylight, exposed for the bare lamp">
        <Swatch hex={filterHex(filter)} />
      </Fact>
    </Facts>
  );
}

function tintText(duv: number): string {
  return `Duv ${duv < 0 ? '\u2212' : '+'}${Math.abs(duv).toFixed(3)}, ${duv < 0 ? 'pink' : 'green'}`;
}
