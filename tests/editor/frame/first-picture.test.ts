import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { firstPicture } from '../../../src/editor/frame/first-picture.ts';
import {
  createFrameStore,
  type FrameProgress,
  type FrameState,
} from '../../../src/editor/frame/frame-state.ts';

const DRAWN: FrameProgress = {
  samples: 1,
  noise: Number.NaN,
  width_px: 24,
  height_px: 16,
  stage: 'sampling',
};

/** Whether the promise has been kept by now. */
async function kept(promise: Promise<void>): Promise<boolean> {
  let done = false;
  void promise.then(() => (done = true));
  await vi.advanceTimersByTimeAsync(0);
  return done;
}

describe('the first picture', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it.each<[string, Partial<FrameState>]>([
    ['made by the processor', { standIn: DRAWN }],
    ['made by the card', { progress: DRAWN }],
    ['not wanted while the frame is held', { paused: true }],
    ['kept from being made', { failure: 'the worker stopped' }],
  ])('is waited for until it is %s', async (_, change) => {
    const frame = createFrameStore();
    const first = firstPicture(frame);
    expect(await kept(first)).toBe(false);
    frame.setState(change);
    expect(await kept(first)).toBe(true);
  });

  it('keeps nobody waiting for longer than three seconds', async () => {
    const first = firstPicture(createFrameStore());
    await vi.advanceTimersByTimeAsync(2900);
    expect(await kept(first)).toBe(false);
    await vi.advanceTimersByTimeAsync(200);
    expect(await kept(first)).toBe(true);
  });
});
