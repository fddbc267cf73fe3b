import { expect, it } from 'vitest';
import { frameActions } from '../../../src/editor/frame/frame-actions.ts';
import { frameStoreOf } from '../../../src/editor/frame/use-frame.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';

function atWork() {
  const store = createEditorStore();
  const frame = frameStoreOf(store);
  const actions = frameActions(store);
  const act = (id: string) => actions.find((action) => action.id === id)!;
  return { frame, actions, act };
}

it('every action has an id and a name of its own', () => {
  const { actions } = atWork();
  expect(new Set(actions.map(({ name }) => name)).size).toBe(actions.length);
  expect(new Set(actions.map(({ id }) => id)).size).toBe(actions.length);
});

it('a frame is kept to compare once there is one, and let go', async () => {
  const { frame, act } = atWork();
  expect(act('frame.keep').enabled()).toBe(false);
  expect(act('frame.let-go').enabled()).toBe(false);
  frame.setState({ grab: async () => 'data:image/png;base64,AAAA' });
  expect(act('frame.keep').enabled()).toBe(true);
  act('frame.keep').run();
  await expect.poll(() => frame.getState().reference?.url).toBe('data:image/png;base64,AAAA');
  act('frame.let-go').run();
  expect(frame.getState().reference).toBeNull();
});

it('looks, lines and marks are as they are chosen', () => {
  const { frame, act } = atWork();
  act('frame.normals').run();
  act('frame.lines.both').run();
  act('frame.ends').run();
  expect(frame.getState()).toMatchObject({ look: 'normals', lines: 'both', marksEnds: true });
  act('frame.ends').run();
  expect(frame.getState().marksEnds).toBe(false);
});
