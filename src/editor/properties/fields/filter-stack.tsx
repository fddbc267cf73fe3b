import { entryNamed, LIBRARY } from '../../../scene/library/library.ts';
import type { Filter } from '../../../scene/schema/filter.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { filterCost, kelvinText, lossText } from '../costs/filter-cost.ts';
import { MIXED, useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { OpenThing } from '../open-thing.tsx';
import { limitsOf } from '../schema-limits.ts';
import { useThingsNamed } from '../use-things-named.ts';
import { FieldRow } from './field-row.tsx';
import { Pick } from './pick.tsx';
import { pickOptions, swatchOf } from './pick-options.tsx';

/** What stands before a lamp, in order, each with what it takes; from it, all together with the new colour. */
export function FilterStack({ field, at }: SpecialProps) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const head = useFieldValue(HEAD);
  const known = useThingsNamed('filters');
  const lamp = useEditor((state) =>
    typeof head === 'string'
      ? entryNamed(documentShown(state)?.heads, LIBRARY.heads, head)?.spectrum
      : undefined,
  );
  const ids = Array.isArray(value) ? (value as readonly string[]) : [];
  const stack = ids.flatMap((id) => known.find((thing) => thing.id === id) ?? []);
  const filters = stack.map(({ entry }) => entry as Filter);
  const cost = lamp && filters.length > 0 ? filterCost(lamp, filters) : undefined;
  const put = (now: readonly string[]) => desk.set(at, now.length > 0 ? now : undefined);
  const most = limitsOf(desk.kind, at)?.longest ?? Number.POSITIVE_INFINITY;

  return (
    <FieldRow label={field.label} path={at} help={field.help} layout="wide">
      <div className="named-list">
        {value === MIXED && <p className="quiet">several</p>}
        {stack.map((thing, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a filter may stand there twice, and has no other identity
          <span key={`${thing.id}-${index}`} className="named-entry">
            {swatchOf(thing, 'filters')}
            <bdi>{thing.name}</bdi>
            {lamp && (
              <span className="quiet">{lossText(filterCost(lamp, [thing.entry as Filter]).loss_stops)}</span>
            )}
            {thing.key && <OpenThing id={thing.key} name={thing.name} />}
            <button
              type="button"
              aria-label={`Take away ${thing.name}`}
              onClick={() => put(ids.toSpliced(index, 1))}
            >
              <span aria-hidden="true">×</span>
            </button>
          </span>
        ))}
        {cost && (
          <p className="quiet stack-cost" data-testid="stack-cost">
            {lossText(cost.loss_stops)} ± {cost.loss_uncertainty_stops.toFixed(1)}, light of{' '}
            {kelvinText(cost.cct_K)}
          </p>
        )}
        {value !== MIXED && ids.length < most && (
          <Pick
            label="Add a filter"
            shown={<span className="quiet">Add a filter…</span>}
            options={() => pickOptions(known, 'filters', lamp)}
            onPick={(picked) => put([...ids, picked])}
          />
        )}
      </div>
    </FieldRow>
  );
}

const HEAD = ['head'] as const;
