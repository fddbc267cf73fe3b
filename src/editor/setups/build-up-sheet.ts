import { exposureHeading, exposureSheet } from '../../paperwork/exposure-sheet.ts';
import { pictureSettings } from '../../paperwork/picture-settings.ts';
import { fileNameOf } from '../documents/scene-file.ts';
import type { Look } from '../frame/frame-state.ts';
import type { EditorState } from '../store/editor-state.ts';
import { cameraShown, documentShown, setupShown } from '../store/shown-scene.ts';
import type { BuildUpStep } from './build-up.ts';
import { aloneWords, orderWords, soFarWords } from './build-up-words.ts';
import { drawSheet } from './draw-sheet.ts';
import { savePicture } from './save-picture.ts';
import { setupNamed, setupTitle } from './setup-edits.ts';
import { SMALL_FRAME, type SmallFrame } from './small-frame-desk.ts';
import { imageOf } from './small-picture.tsx';

/** One step of the build-up with its frames. */
export interface BuildUpFrames {
  readonly step: BuildUpStep;
  readonly name: string;
  readonly alone: SmallFrame;
  readonly soFar: SmallFrame;
}

/** Saves the build-up as a contact sheet: names, frames, readings and the exposure that they hold for. Rejects where it cannot be drawn. */
export async function saveBuildUpSheet(
  state: EditorState,
  steps: readonly BuildUpFrames[],
  markName: string | undefined,
  look: Look,
): Promise<void> {
  const document = documentShown(state);
  const shown = cameraShown(state);
  const camera = document?.cameras?.find(({ id }) => id === shown?.id);
  if (!document || !camera) return;
  const report = state.reading?.report;
  const { unit } = state;
  const setup = setupShown(state) ?? null;
  const rows = report ? exposureSheet(report, unit) : null;
  const file = await drawSheet(
    {
      title: document.title || 'Untitled scene',
      lines: [
        setupTitle(setupNamed(state, setup ?? undefined)),
        ...(report ? [exposureHeading(report)] : []),
        `One lamp at a time. ${orderWords(markName)}`,
      ],
      cells: steps.map(({ step, name, alone, soFar }) => ({
        title: step.lamp === null ? name : `+ ${name}`,
        pictures: [
          { image: imageOf(alone, look), words: `alone ${step.alone ? aloneWords(step.alone, unit) : ''}` },
          { image: imageOf(soFar, look), words: `so far ${step.soFar ? soFarWords(step.soFar, unit) : ''}` },
        ],
      })),
      footer: rows
        ? [
            `With all lamps: ${rows.rows
              .map((row) => `${row.name} ${row.stops} ${row.plusMinus}, ${row.reading} ${unit}`)
              .join(' · ')}`,
            'Light adds: frames and readings so far are sums. ± is known for all lamps together only.',
            ...rows.footer,
          ]
        : [],
    },
    pictureSettings(
      { document, setup, camera },
      {
        samples: { least: SMALL_FRAME.samples, most: SMALL_FRAME.samples },
        seed: SMALL_FRAME.seed,
        filtered: true,
        medianError: null,
      },
    ),
  );
  savePicture(fileNameOf(document.title).replace(/\.json$/, '-lamps.png'), file);
}
