import type { Site } from '../../../scene/schema/site.ts';
import { choose } from '../../store/choose.ts';
import { edit } from '../../store/edits.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditorStore } from '../../store/use-editor.ts';
import { useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { OpenThing } from '../open-thing.tsx';
import { subjectOf } from '../subject.ts';
import { FieldRow } from './field-row.tsx';

const FIRST_OUTLINE_m: readonly (readonly [number, number])[] = [
  [-2, 2],
  [2, 2],
  [2, 3],
  [-2, 3],
];

/** Where nothing may stand: each area with the way to its corners. */
export function KeepOutList({ field, at }: SpecialProps) {
  const store = useEditorStore();
  const areas = (useFieldValue(at) as Site['keepOut']) ?? [];
  const add = () => {
    const document = documentShown(store.getState());
    if (!document) return;
    let number = areas.length + 1;
    while (subjectOf(document, `area-${number}`)) number++;
    const area = { id: `area-${number}`, name: `Area ${number}`, outline_m: FIRST_OUTLINE_m };
    const patch = { keepOut: [...areas, area] };
    if (edit(store, { do: 'change-section', section: 'site', patch }, 'Add keep-out area'))
      choose(store, [area.id]);
  };
  return (
    <FieldRow label={field.label} path={at} help={field.help} layout="wide">
      <div className="named-list">
        {areas.map(({ id, name }) => (
          <span key={id} className="named-entry">
            <bdi>{name ?? id}</bdi>
            <OpenThing id={id} name={name ?? id} />
          </span>
        ))}
        <button type="button" onClick={add}>
          Add area
        </button>
      </div>
    </FieldRow>
  );
}
