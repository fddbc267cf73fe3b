import { cameraShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { frameKey, sameKey, slotOf } from './frame-key.ts';
import { useSetups } from './setups-state.ts';
import type { LightShown, SmallFrame } from './small-frame-desk.ts';

interface SmallFrameSeen {
  readonly frame: SmallFrame | null | undefined;
  /** In a word or two, what the frame is worth; empty when it is what it should be. */
  readonly state: string;
}

/** The small frame of a setup, as far as there is one. */
export function useSmallFrame(setup: string | undefined, light: LightShown): SmallFrameSeen {
  const slot = slotOf(setup, light);
  const kept = useSetups((state) => state.frames.get(slot));
  const share = useSetups(({ drawing }) => (drawing?.slot === slot ? drawing.share : null));
  const current = useEditor((state) => {
    const camera = cameraShown(state)?.id;
    return Boolean(state.scene && kept && sameKey(kept.key, frameKey(state.scene, setup, camera)));
  });
  const working = share === null ? null : `${Math.round(100 * share)} %`;
  if (!kept) return { frame: undefined, state: working ?? 'waits' };
  if (!current) return { frame: kept.frame, state: working ?? 'old' };
  return { frame: kept.frame, state: kept.frame ? '' : 'cannot be seen' };
}
