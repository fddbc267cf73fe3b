import { useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { OpenThing } from '../open-thing.tsx';
import { useThingsNamed } from '../use-things-named.ts';
import { FieldRow } from './field-row.tsx';

/** Who or what follows a path: a figure, a lamp, a camera, or somebody who passes by. */
export function MoverField({ field, at }: SpecialProps) {
  const desk = useDesk();
  const value = useFieldValue(at);
  const movers = useThingsNamed('movers');
  const mover = movers.find(({ id }) => id === value);
  return (
    <FieldRow label={field.label} path={at} help={field.help}>
      <span className="field-reference">
        <select
          aria-label={field.label}
          value={mover?.id ?? ''}
          onChange={({ target }) => desk.set(at, target.value)}
        >
          {!mover && <option value="">several</option>}
          {movers.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
        {mover?.key && <OpenThing id={mover.key} name={mover.name} />}
      </span>
    </FieldRow>
  );
}
