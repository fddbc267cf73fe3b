import { createContext, useContext, useMemo, useState } from 'react';
import type { Path } from '../../scene/problems/problem.ts';
import { valueAt } from '../../scene/problems/problem.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { FigureTaste } from '../figures/quantity.ts';
import { isLocked, planStoreOf } from '../plan/plan-state.ts';
import type { EditorState } from '../store/editor-state.ts';
import { edit } from '../store/edits.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { withMarksFollowing } from './marks-follow.ts';
import {
  changeCommands,
  DOCUMENT,
  documentSubject,
  type Subject,
  type SubjectKind,
  subjectOf,
} from './subject.ts';
import { withValueAt } from './value-at.ts';

/** What stands at a path where several things are chosen that do not agree. */
export const MIXED: unique symbol = Symbol('several values');

export interface PropertiesDesk {
  /** What the things are chosen by; `document` alone for the scene itself. */
  readonly ids: readonly string[];
  /** Of the last one, whose limits hold. */
  readonly kind: SubjectKind;
  /** Puts a value, or what becomes of the old one, at a path of every chosen thing, as one step; undefined takes it away. */
  set(path: Path, value: unknown): void;
  /** Says why something that was typed was not taken; null when something was. */
  refuse(why: string | null): void;
  readonly refused: string | null;
}

const DeskContext = createContext<PropertiesDesk | null>(null);
export const DeskProvider = DeskContext.Provider;

export function useDesk(): PropertiesDesk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('this field stands outside the properties');
  return desk;
}

/** A change of the old value instead of a new one. */
export type Becoming = (old: unknown) => unknown;

export function useNewDesk(ids: readonly string[], kind: SubjectKind): PropertiesDesk {
  const store = useEditorStore();
  const [refused, setRefused] = useState<{ readonly ids: readonly string[]; readonly why: string } | null>(
    null,
  );
  return useMemo(
    () => ({
      ids,
      kind,
      set(path, value) {
        const document = documentShown(store.getState());
        if (!document) return;
        const changes = subjectsIn(document, ids).map((subject) => {
          const now = typeof value === 'function' ? (value as Becoming)(valueAt(subject.thing, path)) : value;
          return { subject, after: withValueAt(subject.thing, path, now) as object };
        });
        const plan = planStoreOf(store).getState();
        const commands = changeCommands(
          document,
          withMarksFollowing(document, changes, (mark) => isLocked(plan, mark, 'marks')),
        );
        setRefused(null);
        if (commands.length > 0) edit(store, commands);
      },
      refuse: (why) => setRefused(why === null ? null : { ids, why }),
      refused: refused?.ids === ids ? refused.why : null,
    }),
    [store, ids, kind, refused],
  );
}

const known = new WeakMap<SceneDocument, Map<string, Subject | undefined>>();

/** The things that are chosen, as they stand in a document; those that are gone are left out. */
export function subjectsIn(document: SceneDocument, ids: readonly string[]): Subject[] {
  const subjects = known.get(document) ?? new Map<string, Subject | undefined>();
  known.set(document, subjects);
  return ids.flatMap((id) => {
    if (!subjects.has(id)) {
      subjects.set(id, id === DOCUMENT ? documentSubject(document) : subjectOf(document, id));
    }
    return subjects.get(id) ?? [];
  });
}

/** What all the chosen things have at a path, or MIXED. */
export function commonValue(document: SceneDocument, ids: readonly string[], path: Path): unknown {
  const [first, ...others] = subjectsIn(document, ids).map((subject) => valueAt(subject.thing, path));
  return others.every((one) => Object.is(one, first) || JSON.stringify(one) === JSON.stringify(first))
    ? first
    : MIXED;
}

/** The value of a field of what is chosen; the same object until it changes. */
export function useFieldValue(path: Path): unknown {
  const { ids } = useDesk();
  return useEditor((state) => {
    const document = documentShown(state);
    return document && commonValue(document, ids, path);
  });
}

/** Whether the setup that is shown gives this field another value than the base has. */
export function useIsOfSetup(path: Path): boolean {
  const { ids } = useDesk();
  return useEditor((state) => {
    const base = state.scene?.document;
    const shown = documentShown(state);
    if (!base || !shown || base === shown) return false;
    return ids.some((id) => {
      const [before] = subjectsIn(base, [id]);
      const [now] = subjectsIn(shown, [id]);
      return (
        before &&
        now &&
        JSON.stringify(valueAt(before.thing, path)) !== JSON.stringify(valueAt(now.thing, path))
      );
    });
  });
}

const tastes = new Map<string, FigureTaste>();

function tasteOf({ lengths, unit }: EditorState): FigureTaste {
  const key = `${lengths} ${unit}`;
  const taste = tastes.get(key) ?? { lengths, unit };
  tastes.set(key, taste);
  return taste;
}

/** The units that figures are shown in. */
export function useTaste(): FigureTaste {
  return useEditor(tasteOf);
}
