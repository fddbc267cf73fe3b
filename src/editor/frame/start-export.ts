import { fileNameOf } from '../documents/scene-file.ts';
import type { EditorState } from '../store/editor-state.ts';
import { cameraShown, documentShown, setupShown } from '../store/shown-scene.ts';
import type { ExportKind } from './frame-file.ts';
import { frameTalk } from './frame-talk.ts';
import { mixWithout } from './keep-frame.ts';
import { receivedScene } from './sent-scene.ts';
import { exportInWorker } from './worker-export.ts';
import { startFrameDesk } from './worker-frame-desk.ts';

export interface ExportWish {
  readonly kind: ExportKind;
  readonly width_px: number;
  readonly height_px: number;
  /** Samples a pixel. */
  readonly samples: number;
}

export interface ExportedFrame {
  readonly blob: Blob;
  readonly name: string;
}

const SEED = 1;

/**
 * Exports the frame of the scene, setup and camera that are shown, without the lamps that are left out of it. Rejects with the
 * signal's reason when it is called off, and with an Error in words for the person where it cannot be done.
 */
export async function startExport(
  state: EditorState,
  { kind, width_px, height_px, samples }: ExportWish,
  progress: (share: number) => void,
  signal: AbortSignal,
): Promise<ExportedFrame> {
  const document = documentShown(state);
  const camera = cameraShown(state);
  if (!document || !camera)
    throw new Error('There is no camera in this scene whose frame could be exported.');
  const desk = startFrameDesk();
  try {
    const answer = await frameTalk(desk)(state, true);
    if (!answer?.scene)
      throw new Error(answer?.problems[0]?.found ?? 'This scene cannot be seen as it stands.');
    const { lamps } = answer;
    // A desk that has answered nothing before sends every texture.
    const scene = receivedScene(answer.scene, {});
    const without = (document.lamps ?? []).filter(({ id, on }) => state.muted.has(id) && on !== false);
    const blob = await exportInWorker(
      {
        kind,
        document,
        setup: setupShown(state) ?? null,
        camera: document.cameras?.find(({ id }) => id === camera.id) ?? camera,
        without: without.map(({ id, name }) => name ?? id),
        scene,
        mix: mixWithout(scene.gains, lamps, state.muted),
        width_px,
        height_px,
        until: { samples },
        seed: SEED,
      },
      progress,
      signal,
    );
    const setup = setupShown(state);
    const name = [document.title, setup, camera.id].filter((part) => part !== undefined).join(' ');
    return { blob, name: fileNameOf(name, kind.file) };
  } finally {
    desk.close();
  }
}
