import '../styles/properties.css';
import { Accordion } from 'radix-ui';
import { type FocusEvent, memo, useState } from 'react';
import { choose } from '../store/choose.ts';
import type { EditorState } from '../store/editor-state.ts';
import { documentShown, setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { commonFields } from './common-fields.ts';
import { DeskProvider, subjectsIn, useDesk, useNewDesk } from './desk.tsx';
import type { KindTable, Section } from './field.ts';
import { FieldList } from './fields/field-list.tsx';
import { TABLES } from './kinds/tables.ts';
import { PropertiesHead } from './properties-head.tsx';
import { PropertiesTail } from './properties-tail.tsx';
import { DOCUMENT, type SubjectKind } from './subject.ts';
import { TrailProvider } from './trail.tsx';

const THE_SCENE: readonly string[] = [DOCUMENT];

/** What is chosen and still there; the scene itself where nothing is. The same list until that changes. */
function chosenIds(state: EditorState): readonly string[] {
  const { chosen } = state;
  const document = documentShown(state);
  if (!document || chosen.length === 0) return THE_SCENE;
  const there = subjectsIn(document, chosen).length;
  if (there === chosen.length) return chosen;
  return there === 0 ? THE_SCENE : kept(chosen, document);
}

let lastKept: { chosen: readonly string[]; ids: readonly string[] } | undefined;

function kept(chosen: readonly string[], document: Parameters<typeof subjectsIn>[0]): readonly string[] {
  const ids = chosen.filter((id) => subjectsIn(document, [id]).length > 0);
  if (lastKept?.chosen !== chosen || lastKept.ids.join(' ') !== ids.join(' ')) lastKept = { chosen, ids };
  return lastKept.ids;
}

/** All that can be set of what is chosen, and what follows from it. */
export function Properties() {
  const ids = useEditor(chosenIds);
  const kinds = useEditor((state) => {
    const document = documentShown(state);
    return document
      ? subjectsIn(document, ids)
          .map(({ kind }) => kind)
          .join(' ')
      : '';
  });
  if (kinds === '') return null;
  const list = kinds.split(' ') as SubjectKind[];
  return (
    <TrailProvider>
      <ChosenProperties key={ids.join(' ')} ids={ids} kinds={list} />
    </TrailProvider>
  );
}

interface ChosenProps {
  readonly ids: readonly string[];
  readonly kinds: readonly SubjectKind[];
}

function ChosenProperties({ ids, kinds }: ChosenProps) {
  const kind = kinds.at(-1)!;
  const desk = useNewDesk(ids, kind);
  const table: KindTable = TABLES[kind];
  const sections = kinds.every((one) => one === kind)
    ? table.sections
    : [{ title: 'In common', fields: commonFields(kinds.map((one) => TABLES[one])) }];
  const [help, setHelp] = useState<string | null>(null);
  const showHelp = ({ target }: FocusEvent) => {
    setHelp(target.closest<HTMLElement>('[data-help]')?.dataset.help ?? null);
  };
  // What was refused on leaving a field is to be read while the next one has the focus.
  const forgetRefusal = () => desk.refuse(null);
  return (
    <DeskProvider value={desk}>
      <section
        className="panel properties"
        aria-label="Properties"
        onFocus={showHelp}
        onInput={forgetRefusal}
        onPointerDownCapture={forgetRefusal}
      >
        <PropertiesHead ids={ids} word={ids.length === 1 ? table.word : `${ids.length} things`} />
        <SetupNote />
        <Sections sections={sections} id={ids.length === 1 ? ids[0]! : null} />
        <PropertiesTail ids={ids} />
        <PropertiesFoot help={help} />
      </section>
    </DeskProvider>
  );
}

interface SectionsProps {
  readonly sections: readonly Section[];
  /** What facts are told of; null where several things are chosen. */
  readonly id: string | null;
}

const Sections = memo(function Sections({ sections, id }: SectionsProps) {
  const open = sections.filter(({ folded }) => !folded).map(({ title }) => title);
  if (sections.every(({ fields }) => fields.length === 0)) {
    return <p className="quiet">These have nothing in common to set.</p>;
  }
  return (
    <Accordion.Root type="multiple" defaultValue={open} className="sections">
      {sections.map(({ title, fields, Facts, factsFirst }) => (
        <Accordion.Item key={title} value={title} className="section">
          <Accordion.Header asChild>
            <h3>
              <Accordion.Trigger className="section-head">
                {title}
                <span className="section-mark" aria-hidden="true" />
              </Accordion.Trigger>
            </h3>
          </Accordion.Header>
          <Accordion.Content className="section-body">
            {Facts && factsFirst && id !== null && <Facts id={id} />}
            <FieldList fields={fields} />
            {Facts && !factsFirst && id !== null && <Facts id={id} />}
          </Accordion.Content>
        </Accordion.Item>
      ))}
    </Accordion.Root>
  );
});

/** While a setup is shown, changes are its own. */
function SetupNote() {
  const store = useEditorStore();
  const setup = useEditor(setupShown);
  const name = useEditor((state) => state.scene?.document.setups?.find(({ id }) => id === setup)?.name);
  if (setup === undefined) return null;
  return (
    <p className="note">
      Changes belong to setup {setup}
      {name && (
        <>
          , <bdi>{name}</bdi>
        </>
      )}
      ; the base stays as it is.
      <button type="button" onClick={() => choose(store, [setup])}>
        What it changes
      </button>
    </p>
  );
}

/** Why something was not taken; otherwise what the field that is being set is about. Always there, so that nothing jumps. */
function PropertiesFoot({ help }: { readonly help: string | null }) {
  const desk = useDesk();
  const refused = useEditor((state) => state.refusedEdit);
  const why = desk.refused ?? refused;
  return (
    <p className={why ? 'properties-foot refused' : 'properties-foot'} role="status">
      {why
        ? `Not changed: ${why}`
        : (help ?? 'Numbers may be typed in any unit: 2.4m, 8ft 2in, 1/50, 5600K.')}
    </p>
  );
}
