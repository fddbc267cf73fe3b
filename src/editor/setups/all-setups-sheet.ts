import { exposureWords } from '../../paperwork/exposure-sheet.ts';
import { pictureSettings } from '../../paperwork/picture-settings.ts';
import { exposureOf } from '../../scene/camera/scene-camera.ts';
import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { sceneInSetup } from '../../scene/setups/scene-in-setup.ts';
import { fileNameOf } from '../documents/scene-file.ts';
import type { Look } from '../frame/frame-state.ts';
import type { EditorState } from '../store/editor-state.ts';
import { cameraShown } from '../store/shown-scene.ts';
import { drawSheet } from './draw-sheet.ts';
import { savePicture } from './save-picture.ts';
import { readingConventions, setupReadings } from './setup-readings.ts';
import { SMALL_FRAME, type SmallFrame } from './small-frame-desk.ts';
import { imageOf } from './small-picture.tsx';

/** The base or a setup, with its frame, its readings and what it changes. */
export interface SetupOnSheet {
  readonly id: string | undefined;
  readonly title: string;
  readonly frame: SmallFrame;
  /** Null where there is no mark, or the scene cannot be metered so. */
  readonly report: MeterReport | null;
  readonly changes: readonly string[];
}

/** Saves the base and all setups as a contact sheet in shooting order. Rejects where it cannot be drawn. */
export async function saveAllSetupsSheet(
  state: EditorState,
  setups: readonly SetupOnSheet[],
  look: Look,
): Promise<void> {
  const document = state.scene?.document;
  const camera = document?.cameras?.find(({ id }) => id === cameraShown(state)?.id);
  if (!document || !camera) return;
  const reports = setups.flatMap(({ report }) => report ?? []);
  const file = await drawSheet(
    {
      title: document.title || 'Untitled scene',
      lines: [`Camera ${camera.name ?? camera.id}. The base and all setups in shooting order.`],
      cells: setups.map(({ id, title, frame, report, changes }) => ({
        title,
        pictures: [{ image: imageOf(frame, look), words: settingsIn(document, id, camera.id) }],
        figures: report
          ? setupReadings(report).map(({ name, stops, plusMinus }) => [name, stops, plusMinus])
          : [],
        notes: changes,
      })),
      footer: [
        'Every frame at the camera’s own exposure, small and with its noise smoothed: for telling setups apart, not for judging light.',
        ...(reports.length > 0 ? readingConventions(reports, state.unit) : []),
      ],
    },
    ofAll(
      pictureSettings(
        { document, setup: 'base and all', camera },
        {
          samples: { least: SMALL_FRAME.samples, most: SMALL_FRAME.samples },
          seed: SMALL_FRAME.seed,
          filtered: true,
          medianError: null,
        },
      ),
    ),
  );
  savePicture(fileNameOf(document.title).replace(/\.json$/, '-setups.png'), file);
}

/** Setups may have exposures of their own: those are written under each frame. */
const ONE_SETUPS_OWN = ['Exposure', 'WhiteBalance', 'MiddleGrey'];

function ofAll(settings: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(settings).filter(([word]) => !ONE_SETUPS_OWN.includes(word)));
}

function settingsIn(base: SceneDocument, setup: string | undefined, camera: string): string {
  const there = sceneInSetup(base, setup).cameras?.find(({ id }) => id === camera);
  return there ? exposureWords(exposureOf(there)) : 'without this camera';
}
