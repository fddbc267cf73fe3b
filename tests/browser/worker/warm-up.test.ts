import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Scene, ShownReading } from '../../../src/editor/store/editor-state.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { beginGesture } from '../../../src/editor/store/edits.ts';
import { readingFreshness } from '../../../src/editor/store/shown-scene.ts';
import { warmUp } from '../../../src/editor/worker/warm-up.ts';
import { opened, smallScene } from '../../support/scenes.ts';

const SCENE: Scene = { document: opened(smallScene()), beside: new Map() };

/** A page at rest, all its numbers shown, and idle whenever it is asked. */
function atRest() {
  vi.stubGlobal('requestIdleCallback', (work: () => void) => setTimeout(work));
  const store = createEditorStore();
  const camera = SCENE.document.cameras![0]!.id;
  const reading = { scene: SCENE, camera, setup: undefined, extent: 'all' } as ShownReading;
  store.setState({ scene: SCENE, reading });
  const read: Scene[] = [];
  return { store, read, reading };
}

const idle = () => new Promise((done) => setTimeout(done, 100));

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('doing in idle time what a drag will do', () => {
  it('reads a lamp that moves and leaves the scene, its history and what is shown as they were', async () => {
    const { store, read, reading } = atRest();
    warmUp(store, async (scene) => read.push(scene));
    await idle();
    const places = read.map(({ document }) => document.lamps![0]!.position_m.join());
    expect(places.length).toBeGreaterThan(5);
    expect(new Set(places).size).toBe(places.length);
    expect(read.every(({ document }) => document.marks === SCENE.document.marks)).toBe(true);
    const state = store.getState();
    expect(state.scene).toBe(SCENE);
    expect(state.reading).toEqual(reading);
    expect(readingFreshness(state)).toBe('fresh');
    expect(store.temporal.getState().pastStates.filter(({ scene }) => scene)).toEqual([]);
  });

  it('leaves off when a real one begins', async () => {
    const { store, read, reading } = atRest();
    warmUp(store, async (scene) => {
      read.push(scene);
      beginGesture(store, 'drag');
    });
    await idle();
    expect(read.length).toBe(1);
    expect(store.getState().reading).toBe(reading);
  });
});
