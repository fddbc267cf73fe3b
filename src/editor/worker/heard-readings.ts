import type { Corrections } from '../../scene/readings/corrections.ts';
import { sameMetered } from '../../scene/readings/same-metered.ts';
import type { EditorState, Heard } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';

/**
 * What the night's readings correct, as far as it is known. To hear them takes all light at each of them, far too long for a
 * drag or a first picture: until they were heard once, the plan stands uncorrected, with its wider ±, and while something moves
 * they say what they said when it last stood still. Undefined where others were written down since: whoever asks works it out.
 */
export function correctionsHeard({ scene, heard }: EditorState): Corrections | null | undefined {
  if (!heard) return null;
  return sameMetered(heard.readings, scene?.document.readings) ? heard.corrections : undefined;
}

/** Corrections that are what they were stay the same object, so that nothing is made anew for them. */
export function hear(store: EditorStore, now: Heard): void {
  const before = store.getState().heard;
  const same = before !== null && JSON.stringify(before.corrections) === JSON.stringify(now.corrections);
  store.setState({ heard: same ? { ...now, corrections: before.corrections } : now });
}
