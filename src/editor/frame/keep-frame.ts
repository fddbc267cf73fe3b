import type { Vec3 } from '../../core/math/vec3.ts';
import type { Texels } from '../../preview/pack/texels.ts';
import type { PreviewScene } from '../../preview/renderer/preview-scene.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { correctionsHeard } from '../worker/heard-readings.ts';
import { latestWins } from '../worker/latest-wins.ts';
import type { FrameAnswer, FrameDesk } from './frame-desk.ts';
import type { FrameStore } from './frame-state.ts';
import { frameTalk } from './frame-talk.ts';
import { receivedScene } from './sent-scene.ts';

/** What is to be drawn, whole. */
export interface FrameSubject {
  /** As the graphics card takes it; null where that was not asked for. */
  readonly scene: PreviewScene | null;
  readonly answer: FrameAnswer;
}

/** Who is drawing. */
export interface Drawing {
  /** The graphics card: it wants the scene in its own form, and goes on where it was held. */
  card(): boolean;
  /** The processor, which begins anew where it was held. */
  processor(): boolean;
}

export interface FrameKeeper {
  /** Asks again, for one more who draws. */
  again(): void;
  stop(): void;
}

/**
 * Keeps what is to be drawn that of the scene in the store: asks the desk whenever scene, setup, camera or what the readings say
 * change, and hands on what it answers; where another scene is opened, nothing first, so that no picture is taken for one of
 * another. While the frame is held it stays what it is, and is told apart when the scene has gone on.
 */
export function keepFrame(
  store: EditorStore,
  frame: FrameStore,
  desk: Pick<FrameDesk, 'look'>,
  take: (subject: FrameSubject | null) => void,
  drawing: Drawing,
): FrameKeeper {
  let stopped = false;
  const ask = frameTalk(desk);
  let textures: Readonly<Record<string, Texels>> = {};
  /** Of the scene that was handed on last. */
  let openings: number | null = null;

  const look = latestWins(async () => {
    const state = store.getState();
    if (!state.scene || stopped) return;
    if (frame.getState().paused) {
      frame.setState({ behind: true });
      return;
    }
    if (openings !== null && openings !== state.openings) {
      openings = null;
      take(null);
    }
    try {
      const forCard = drawing.card();
      const answer = await ask(state, forCard, correctionsHeard(state));
      const scene = answer?.scene ? receivedScene(answer.scene, textures) : null;
      // The next answer leaves out what was in this one, wanted or not.
      if (scene) textures = scene.textures;
      if (stopped || !answer || store.getState().openings !== state.openings) return;
      const { camera, lamps, things, limits, problems } = answer;
      frame.setState({ camera, lamps, things, limits, problems, failure: null, behind: false });
      openings = state.openings;
      take(answer.camera && (scene || !forCard) ? { scene, answer } : null);
    } catch (error) {
      if (!stopped) frame.setState({ failure: (error as Error).message });
    }
  });

  const unsubscribes = [
    store.subscribe((now, before) => {
      if (now.scene !== before.scene || now.setup !== before.setup || now.camera !== before.camera) look();
      else if (now.heard?.corrections !== before.heard?.corrections && !frame.getState().paused) look();
    }),
    frame.subscribe((now, before) => {
      if (before.paused && !now.paused && (now.behind || drawing.processor())) look();
    }),
  ];
  look();
  return {
    again: look,
    stop() {
      stopped = true;
      for (const unsubscribe of unsubscribes) unsubscribe();
    },
  };
}

/** The scene's own mix, without the lamps that are left out of what is looked at. */
export function mixWithout(
  gains: readonly Vec3[],
  lamps: readonly string[],
  muted: ReadonlySet<string>,
): Vec3[] {
  return gains.map((gain, i) => (muted.has(lamps[i]!) ? [0, 0, 0] : gain));
}
