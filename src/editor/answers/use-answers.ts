import { useEffect } from 'react';
import { useStore } from 'zustand';
import type { EditorStore } from '../store/editor-store.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import type { AnswerKind, AskedOf } from '../worker/answer-kinds.ts';
import { startAnswerDesk } from '../worker/answer-worker-desk.ts';
import {
  type AnswersState,
  type AnswersStore,
  type AskedByPanel,
  createAnswersStore,
  type ShownAnswer,
} from './answers-state.ts';
import { type AnswerFreshness, answerFreshness } from './asking.ts';
import { type AnswersKeeper, keepAnswers } from './keep-answers.ts';

interface Answers {
  readonly store: AnswersStore;
  readonly keeper: AnswersKeeper;
}

const ofEditor = new WeakMap<EditorStore, Answers>();

/** The answers that go with an editor store. Nothing is started before something is asked. */
export function answersOf(editor: EditorStore): Answers {
  let answers = ofEditor.get(editor);
  if (!answers) {
    const store = createAnswersStore();
    answers = { store, keeper: keepAnswers(editor, store, startAnswerDesk) };
    ofEditor.set(editor, answers);
  }
  return answers;
}

export function useAnswersStore(): AnswersStore {
  return answersOf(useEditorStore()).store;
}

export function useAnswersKeeper(): AnswersKeeper {
  return answersOf(useEditorStore()).keeper;
}

/** A part of the answers' state; the selector must return the same object while nothing it shows has changed. */
export function useAnswers<T>(select: (state: AnswersState) => T): T {
  return useStore(useAnswersStore(), select);
}

export interface AnswerInUse<K extends AnswerKind> {
  readonly shown: ShownAnswer<K> | undefined;
  readonly freshness: AnswerFreshness;
}

/** The answer of a kind, worked out while the component that uses it is on the page. */
export function useAnswer<K extends AnswerKind>(kind: K): AnswerInUse<K> {
  const editor = useEditorStore();
  const answers = useAnswersStore();
  useEffect(() => {
    count(answers, kind, 1);
    return () => count(answers, kind, -1);
  }, [answers, kind]);
  const shown = useAnswers((state) => state.answers[kind]) as ShownAnswer<K> | undefined;
  // Either store may make it stale.
  useEditor((state) => answerFreshness(kind, state, answers.getState()));
  const freshness = useAnswers((state) => answerFreshness(kind, editor.getState(), state));
  return { shown, freshness };
}

function count(answers: AnswersStore, kind: AnswerKind, by: 1 | -1): void {
  answers.setState(({ open }) => {
    const next = new Map(open);
    const users = (open.get(kind) ?? 0) + by;
    if (users > 0) next.set(kind, users);
    else next.delete(kind);
    return { open: next };
  });
}

/** How a kind is asked, and a way to ask it otherwise. */
export function useAsked<K extends AskedByPanel>(
  kind: K,
): readonly [AskedOf<K>, (change: Partial<AskedOf<K>>) => void] {
  const answers = useAnswersStore();
  const asked = useAnswers((state) => state.asked[kind]) as AskedOf<K>;
  const change = (part: Partial<AskedOf<K>>) =>
    answers.setState((state) => ({ asked: { ...state.asked, [kind]: { ...state.asked[kind], ...part } } }));
  return [asked, change];
}
