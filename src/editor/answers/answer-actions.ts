import type { EditorStore } from '../store/editor-store.ts';
import { ANSWER_PANELS } from './panels.tsx';

/** Something of the answers that the list of commands offers. */
export interface AnswerAction {
  readonly id: string;
  readonly name: string;
  run(): void;
  enabled(): boolean;
}

/** Opens each panel of answers; `openPanel` is told its id. */
export function answerActions(editor: EditorStore, openPanel: (id: string) => void): readonly AnswerAction[] {
  return ANSWER_PANELS.map(({ id, name }) => ({
    id: `answers.${id}`,
    name: `Show: ${name}`,
    run: () => openPanel(id),
    enabled: () => editor.getState().scene !== null,
  }));
}
