import type { Corrections } from '../../scene/readings/corrections.ts';
import type { EditorState, Scene } from '../store/editor-state.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import { changesSince } from '../worker/document-changes.ts';
import type { FrameAnswer, FrameDesk } from './frame-desk.ts';

/**
 * Asks one desk about one scene after another, and tells it only what is new. The state must have a scene. Without corrections
 * the desk works out what the night's readings say.
 */
export function frameTalk(desk: Pick<FrameDesk, 'look'>) {
  let told: Scene | null = null;
  return async (
    state: EditorState,
    drawn: boolean,
    corrections?: Corrections | null,
  ): Promise<FrameAnswer | null> => {
    const scene = state.scene!;
    const changes = changesSince(told?.document ?? null, scene.document);
    const beside = told?.beside === scene.beside ? {} : { beside: scene.beside };
    told = scene;
    try {
      const camera = cameraShown(state)?.id;
      return await desk.look({ changes, ...beside, setup: setupShown(state), camera, drawn, corrections });
    } catch (error) {
      told = null;
      throw error;
    }
  };
}
