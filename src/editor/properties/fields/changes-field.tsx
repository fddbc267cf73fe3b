import type { Setup } from '../../../scene/schema/setup.ts';
import { setupShown } from '../../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { useDesk, useFieldValue } from '../desk.tsx';
import type { SpecialProps } from '../field.ts';
import { fieldWords, valueWords } from '../field-words.ts';
import { OpenThing } from '../open-thing.tsx';
import { subjectOf } from '../subject.ts';
import { FieldRow } from './field-row.tsx';

/** What a setup changes, thing by thing, each field with the way back to the base. */
export function ChangesField({ field, at }: SpecialProps) {
  const store = useEditorStore();
  const desk = useDesk();
  const [id] = desk.ids;
  const shown = useEditor(setupShown) === id;
  const changes = (useFieldValue(at) as Setup['changes'] | undefined) ?? {};
  const base = useEditor((state) => state.scene?.document);
  if (!base) return null;
  const things = Object.entries(changes);
  return (
    <FieldRow label={field.label} path={at} help={field.help} layout="wide">
      {!shown && (
        <button type="button" onClick={() => store.setState({ setup: id, refusedEdit: null })}>
          Show this setup
        </button>
      )}
      {things.length === 0 && <p className="quiet">Nothing yet: it is as the base.</p>}
      <ul className="change-list">
        {things.map(([thingId, patch]) => {
          const subject = subjectOf(base, thingId);
          const name = (subject?.thing as { name?: string } | undefined)?.name ?? fieldWords(thingId);
          const fields = Object.entries(patch);
          return (
            <li key={thingId}>
              <span className="named-entry">
                <bdi>{name}</bdi>
                {subject && <OpenThing id={thingId} name={name} />}
              </span>
              <ul>
                {fields.map(([key, value]) => (
                  <li key={key} className="change">
                    <span>
                      {fieldWords(key)}: <bdi>{valueWords(value)}</bdi>
                    </span>
                    <button
                      type="button"
                      aria-label={`${fieldWords(key)} of ${name} as in the base`}
                      onClick={() =>
                        desk.set([...at, thingId, ...(fields.length === 1 ? [] : [key])], undefined)
                      }
                    >
                      As in the base
                    </button>
                  </li>
                ))}
              </ul>
            </li>
          );
        })}
      </ul>
    </FieldRow>
  );
}
