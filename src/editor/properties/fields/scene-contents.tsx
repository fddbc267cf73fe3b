import { Accordion } from 'radix-ui';
import { useState } from 'react';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { choose } from '../../store/choose.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { thingsNamed } from '../named-things.ts';

const LISTED = [
  ['cameras', 'Cameras'],
  ['lamps', 'Lamps'],
  ['marks', 'Marks'],
  ['figures', 'Figures'],
  ['solids', 'Solids'],
  ['supplies', 'Supplies'],
  ['paths', 'Paths'],
  ['setups', 'Setups'],
  ['readings', 'Meter readings'],
  ['heads', 'Heads'],
  ['filters', 'Filters'],
  ['materials', 'Materials'],
  ['panes', 'Panes'],
] as const;

const SECTIONS = [
  ['site', 'Site: mains, sky, wind, place, keep-out areas'],
  ['haze', 'Haze'],
  ['calibration', 'Meter constants'],
] as const;

/** The way to everything that a scene holds. */
export function SceneContents() {
  const store = useEditorStore();
  const document = useEditor(documentShown);
  if (!document) return null;
  return (
    <div className="contents">
      {SECTIONS.map(([id, words]) => (
        <button key={id} type="button" className="contents-thing" onClick={() => choose(store, [id])}>
          {words}
        </button>
      ))}
      <Accordion.Root type="single" collapsible>
        {LISTED.map(([list, words]) => (
          <Contents key={list} list={list} words={words} document={document} />
        ))}
      </Accordion.Root>
    </div>
  );
}

interface ContentsProps {
  readonly list: (typeof LISTED)[number][0];
  readonly words: string;
  readonly document: SceneDocument;
}

const SHOWN_AT_ONCE = 40;

function Contents({ list, words, document }: ContentsProps) {
  const store = useEditorStore();
  const [room, setRoom] = useState(SHOWN_AT_ONCE);
  const things = thingsNamed(document, list);
  const own = things.filter(({ fromLibrary }) => !fromLibrary);
  const lent = things.length - own.length;
  return (
    <Accordion.Item value={list} className="contents-list">
      <Accordion.Header asChild>
        <h4>
          <Accordion.Trigger className="contents-head">
            <span>{words}</span>
            <span className="quiet">
              {(own.length > 0 || lent === 0) && own.length}
              {own.length > 0 && lent > 0 && ' and '}
              {lent > 0 && `${lent} in the library`}
            </span>
          </Accordion.Trigger>
        </h4>
      </Accordion.Header>
      <Accordion.Content className="contents-things">
        {things.length === 0 && <p className="quiet">None yet.</p>}
        {things.slice(0, room).map(({ id, name, key, fromLibrary }) => (
          <button
            key={id}
            type="button"
            className="contents-thing"
            onClick={() => key && choose(store, [key])}
          >
            <bdi>{name}</bdi>
            {fromLibrary && <span className="quiet">library</span>}
          </button>
        ))}
        {things.length > room && (
          <button type="button" onClick={() => setRoom(room + SHOWN_AT_ONCE)}>
            {things.length - room} more
          </button>
        )}
      </Accordion.Content>
    </Accordion.Item>
  );
}
