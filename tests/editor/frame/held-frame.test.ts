import { afterEach, expect, it, vi } from 'vitest';
import { createFrameStore } from '../../../src/editor/frame/frame-state.ts';
import { keepHeld } from '../../../src/editor/frame/held-frame.ts';

afterEach(() => vi.unstubAllGlobals());

it('stays held on the next visit, until it goes on', () => {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
  });
  const visit = () => {
    const frame = createFrameStore();
    keepHeld(frame);
    return frame;
  };
  const first = visit();
  expect(first.getState().paused).toBe(false);
  first.setState({ paused: true });
  const second = visit();
  expect(second.getState().paused).toBe(true);
  second.setState({ paused: false });
  expect(visit().getState().paused).toBe(false);
});

it('is not held where storage is forbidden, and can be for this visit', () => {
  vi.stubGlobal('localStorage', undefined);
  const frame = createFrameStore();
  keepHeld(frame);
  frame.setState({ paused: true });
  expect(frame.getState().paused).toBe(true);
});
