import { useState } from 'react';
import { choose } from '../store/choose.ts';
import { edit } from '../store/edits.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { subjectsIn, useDesk } from './desk.tsx';
import { entryKey, isEntry, nameless, removeCommand, renameCommand, type Subject } from './subject.ts';

/** The short name of what is chosen, and how to be rid of it. */
export function PropertiesTail({ ids }: { readonly ids: readonly string[] }) {
  const store = useEditorStore();
  const subject = useEditor((state) => {
    const document = documentShown(state);
    return document && subjectsIn(document, ids).at(-1);
  });
  if (!subject) return null;
  const several = ids.length > 1;
  if (!several && !removable(subject)) return null;

  const remove = () => {
    const document = store.getState().scene?.document;
    if (!document) return;
    const commands = subjectsIn(document, ids).flatMap((one) => removeCommand(document, one) ?? []);
    if (commands.length > 0 && edit(store, commands)) choose(store, []);
  };

  return (
    <div className="properties-tail">
      {!several && <ShortName subject={subject} />}
      <button type="button" onClick={remove}>
        Remove
      </button>
    </div>
  );
}

function removable(subject: Subject): boolean {
  return !nameless(subject) && !subject.fromLibrary;
}

/** The id, by which files, setups and the command line know the thing; everything that names it follows. */
function ShortName({ subject }: { readonly subject: Subject }) {
  const store = useEditorStore();
  const desk = useDesk();
  const [draft, setDraft] = useState<string | null>(null);
  const take = () => {
    const typed = draft?.trim();
    setDraft(null);
    const document = store.getState().scene?.document;
    if (!document || typed === undefined || typed === subject.id) return;
    const command = renameCommand(document, subject, typed);
    if (!command) return;
    desk.refuse(null);
    if (edit(store, command)) choose(store, [isEntry(subject.kind) ? entryKey(subject.kind, typed) : typed]);
  };
  return (
    <label
      className="short-name"
      data-help="Small letters, digits and hyphens. Files and the command line know it by this; whatever names it follows."
    >
      <span className="quiet">Short name</span>
      <input
        type="text"
        className="words"
        autoComplete="off"
        spellCheck={false}
        value={draft ?? subject.id}
        onChange={({ target }) => setDraft(target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          if (event.key === 'Escape') setDraft(null);
        }}
      />
    </label>
  );
}
