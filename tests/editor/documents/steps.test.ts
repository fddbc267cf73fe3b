import { describe, expect, it } from 'vitest';
import { redoSteps, stepsBack, stepsForward, undoSteps } from '../../../src/editor/documents/steps.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { edit } from '../../../src/editor/store/edits.ts';
import { smallScene } from '../../support/scenes.ts';

function worked() {
  const store = createEditorStore();
  store.setState({ scene: { document: smallScene(), beside: new Map() } });
  edit(store, { do: 'change', id: 'key', patch: { level: 0.5 } });
  edit(store, { do: 'change', id: 'key', patch: { position_m: [0, 2, 4] } });
  edit(store, { do: 'describe', title: 'Renamed' });
  store.setState({ scene: { document: { ...smallScene(), title: 'Other' }, beside: new Map() }, step: '' });
  return store;
}

describe('the steps of history', () => {
  it('are named, the next first; an opening by what was opened; none before the first scene', () => {
    const store = worked();
    expect(stepsBack(store)).toEqual(['Open Other', 'Title', 'Move key', 'Level of key']);
    expect(stepsForward(store)).toEqual([]);
  });

  it('go back and forth several at once', () => {
    const store = worked();
    const scenes = store.temporal.getState().pastStates.map(({ scene }) => scene);
    undoSteps(store, 3);
    expect(store.getState().scene).toBe(scenes[2]);
    expect(stepsBack(store)).toEqual(['Level of key']);
    expect(stepsForward(store)).toEqual(['Move key', 'Title', 'Open Other']);
    redoSteps(store, 2);
    expect(store.getState().scene!.document.title).toBe('Renamed');
    expect(stepsForward(store)).toEqual(['Open Other']);
    undoSteps(store, 99);
    expect(store.getState().scene).toBe(scenes[1]);
    expect(stepsBack(store)).toEqual([]);
  });
});
