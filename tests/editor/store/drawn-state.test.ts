import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { drawnState } from '../../../src/editor/store/drawn-state.ts';
import type { EditorState, Scene, ShownReading } from '../../../src/editor/store/editor-state.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';

const scene = (title: string) => ({ document: { title }, beside: new Map() }) as unknown as Scene;
const readingOf = (of: Scene) => ({ scene: of, extent: 'straight' }) as ShownReading;
const [FIRST, SECOND, THIRD] = [scene('first'), scene('second'), scene('third')];

function atWork(gesture: EditorState['gesture']) {
  const store = createEditorStore();
  store.setState({ scene: FIRST, reading: readingOf(FIRST), gesture });
  const drawn = drawnState(store);
  const titles: (string | undefined)[] = [];
  drawn.subscribe(({ scene }) => titles.push(scene?.document.title));
  return { store, drawn, titles };
}

describe('what the page draws of the state', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('is the state itself while nothing is dragged', () => {
    const { store, titles } = atWork(null);
    store.setState({ scene: SECOND });
    expect(titles).toEqual(['second']);
  });

  it('is the state itself while a key is held down, which goes on from what is drawn', () => {
    const { store, titles } = atWork('keys');
    store.setState({ scene: SECOND });
    expect(titles).toEqual(['second']);
  });

  it('is a move together with its straight light, at once', () => {
    const { store, drawn, titles } = atWork('drag');
    store.setState({ scene: SECOND });
    expect(titles).toEqual([]);
    store.setState({ reading: readingOf(SECOND) });
    expect(titles).toEqual(['second']);
    expect(drawn.getState().reading?.scene).toBe(SECOND);
    vi.runAllTimers();
    expect(titles).toEqual(['second']);
  });

  it('waits no longer than half a frame, and then not for the next moves', () => {
    const { store, titles } = atWork('drag');
    store.setState({ scene: SECOND });
    vi.advanceTimersByTime(7);
    expect(titles).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(titles).toEqual(['second']);
    for (let move = 0; move < 4; move++) store.setState({ scene: move % 2 ? SECOND : THIRD });
    expect(titles).toEqual(['second', 'third', 'second', 'third', 'second']);
    store.setState({ scene: THIRD });
    expect(titles.length).toBe(5);
  });

  it('draws the latest move, and whatever is held when the hand lets go', () => {
    const { store, titles } = atWork('drag');
    store.setState({ scene: SECOND });
    store.setState({ scene: THIRD });
    store.setState({ gesture: null });
    expect(titles).toEqual(['third']);
  });
});
