import { describe, expect, it } from 'vitest';
import { answerActions } from '../../../src/editor/answers/answer-actions.ts';
import { ANSWER_PANELS } from '../../../src/editor/answers/panels.tsx';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { smallScene } from '../../support/scenes.ts';

describe('the actions of the answers', () => {
  it('open every panel by its id, once there is a scene', () => {
    const store = createEditorStore();
    const opened: string[] = [];
    const actions = answerActions(store, (id) => opened.push(id));
    expect(actions.some(({ enabled }) => enabled())).toBe(false);
    store.setState({ scene: { document: smallScene(), beside: new Map() } });
    expect(actions.every(({ enabled }) => enabled())).toBe(true);
    for (const { run } of actions) run();
    expect(opened).toEqual(ANSWER_PANELS.map(({ id }) => id));
    expect(new Set(opened).size).toBe(8);
  });
});
