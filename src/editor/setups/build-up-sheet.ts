import { exposureHeading, exposureSheet } from '../../paperwork/exposure-sheet.ts';
import { pictureSettings } from '../../paperwork/picture-settings.ts';
import { fileNameOf } from '../documents/scene-file.ts';
import type { Look } from '../frame/frame-state.ts';
import type { EditorState } from '../store/editor-state.ts';
import { cameraShown, documentShown, setupShown } from '../store/shown-scene.ts';
import type { BuildUpStep } from './build-up.ts';
import { aloneWords, orderWords, soFarWords } from './build-up-words.ts';
import { sheetFile } from './contact-sheet.ts';
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

/** Saves the build-up as a contact sheet: names, frames, readings and the exposure that they hold for. */
export function saveBuildUpSheet(
  state: EditorState,
  steps: readonly BuildUpFrames[],
  markName: string | undefined,
  look: Look,
): void {
  const document = documentShown(state);
  const shown = cameraShown(state);
  const camera = document?.cameras?.find(({ id }) => id === shown?.id);
  if (!document || !camera) return;
  const report = state.reading?.report;
  const { unit } = state;
  const setup = setupShown(state) ?? null;
  const rows = report ? exposureSheet(report, unit) : null;
  const file = sheetFile(
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
          { image: imageOf(alone, look), words: 'alone' },
          { image: imageOf(soFar, look), words: 'all so far' },
        ],
        lines:
          step.alone && step.soFar
            ? [`Alone ${aloneWords(step.alone, unit)}`, `So far ${soFarWords(step.soFar, unit)}`]
            : [],
      })),
      footer: rows
        ? [
            `With all lamps: ${rows.rows
              .map(
                ({ name, stops, plusMinus, reading }) =>
                  `${name} ${stops} ±${plusMinus.replace(/^±/, '')}, ${reading} ${unit}`,
              )
              .join(' · ')}`,
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
