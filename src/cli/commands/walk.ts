import type { LightModel } from '../../core/light-model/light-model.ts';
import { walkSheet } from '../../paperwork/walk-sheet.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import { walkReport } from '../../scene/walk/walk-report.ts';
import { chosenWalker, withoutWalker } from '../../scene/walk/walker.ts';
import { CAMERA_OPTION, type CommandLineCommand, JSON_OPTION, SETUP_OPTION } from '../command.ts';
import { type CorrectedSet, openCorrectedSet, UNCORRECTED_OPTION } from '../corrected-set.ts';
import { DONE } from '../exit.ts';
import { numberOption } from '../number-option.ts';
import { walkSheetText } from '../walk-sheet-text.ts';

/** A strip chart of someone who walks through the light. */
export const walk: CommandLineCommand = {
  name: 'walk',
  answers: 'strip chart of someone who walks: stops, shadows thrown on marks, blur, in frame or not',
  options: {
    path: { type: 'string', value: 'ID', help: 'the path walked (the first that someone walks if left out)' },
    mark: {
      type: 'string',
      multiple: true,
      value: 'ID',
      help: 'a mark to watch for shadows, given once for each (all if left out)',
    },
    step: { type: 'string', value: 'SECONDS', help: 'from row to row (0.1 if left out)' },
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    json: JSON_OPTION,
    uncorrected: UNCORRECTED_OPTION,
    fps: { type: 'string', value: 'RATE', help: 'frame rate of film (25, on 60 Hz mains 24, if left out)' },
    pixels: { type: 'string', value: 'COUNT', help: 'pixels across the picture (6000 if left out)' },
  },
  async run(path, values, streams) {
    const step_s = numberOption(values, 'step', 0.01, 3600);
    const rate_fps = numberOption(values, 'fps', 1, 10_000);
    const frameWidth_px = numberOption(values, 'pixels', 100, 100_000);
    const opened = await openCorrectedSet(path, values, streams);
    const { corrections } = opened;
    const walker = chosenWalker(opened.document, values.path as string | undefined);
    const document = withoutWalker(opened.document, walker);
    const model = document === opened.document ? opened.model : modelOf(document, opened);
    const report = walkReport(document, model, walker, {
      setup: values.setup as string | undefined,
      camera: values.camera as string | undefined,
      readings: corrections?.readings.length,
      marks: values.mark as readonly string[] | undefined,
      step_s,
      rate_fps,
      frameWidth_px,
    });
    streams.out(values.json ? JSON.stringify(report) : walkSheetText(walkSheet(report)));
    return DONE;
  },
};

/** The light model of a document from which the walker was taken out. */
function modelOf(document: SceneDocument, { files, corrections }: CorrectedSet): LightModel {
  return correctedModel(compileScene(document, files), document, corrections);
}
