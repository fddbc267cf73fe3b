import { describe, expect, it } from 'vitest';
import { documentActions } from '../../../src/editor/documents/document-actions.ts';
import { createDocuments } from '../../../src/editor/documents/documents.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { edit } from '../../../src/editor/store/edits.ts';
import { newReadingDesk } from '../../../src/editor/worker/reading-desk.ts';
import { browserOfTabs } from './support/browser-of-tabs.ts';

function session() {
  const store = createEditorStore();
  const browser = browserOfTabs();
  const desk = newReadingDesk();
  const documents = createDocuments({
    store,
    desk: () => desk,
    shelf: browser.shelf,
    holds: browser.newTab(),
    copyText: async () => {},
  });
  return { store, documents, restartReading: () => {} };
}

describe('the actions of the document', () => {
  it('have each an id, a name and keys of their own', () => {
    const actions = documentActions(session());
    for (const of of ['id', 'name'] as const)
      expect(new Set(actions.map((action) => action[of])).size).toBe(actions.length);
    const keys = actions.map((action) => action.keys).filter(Boolean);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys).toContain('Ctrl+S');
  });

  it('can be run when there is something to run them on', async () => {
    const at = session();
    const enabled = (id: string) =>
      documentActions(at)
        .find((action) => action.id === id)!
        .enabled();
    expect(['save-scene', 'copy-link', 'undo', 'redo'].map(enabled)).toEqual([false, false, false, false]);
    await at.documents.newScene();
    expect(['save-scene', 'copy-link', 'undo', 'redo'].map(enabled)).toEqual([true, true, false, false]);
    edit(at.store, { do: 'describe', title: 'Renamed' });
    expect(enabled('undo')).toBe(true);
    const undo = documentActions(at).find(({ id }) => id === 'undo')!;
    undo.run();
    expect(at.store.getState().scene!.document.title).toBe('New scene');
    expect([enabled('undo'), enabled('redo')]).toEqual([false, true]);
  });
});
