import { lensSheet } from '../../paperwork/lens-sheet.ts';
import { lensReport } from '../../scene/framing/lens-report.ts';
import { CAMERA_OPTION, type CommandLineCommand, JSON_OPTION, SETUP_OPTION } from '../command.ts';
import { DONE, NO } from '../exit.ts';
import { lensSheetText } from '../lens-sheet-text.ts';
import { numberOption } from '../number-option.ts';
import { openSet } from '../opened-set.ts';

/** What a camera's lens and shutter make of the scene, and what is in shot that should not be. */
export const lens: CommandLineCommand = {
  name: 'lens',
  answers: 'field of view, depth of field, flicker, blur; lamps and stands in shot (exit 1)',
  options: {
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    json: JSON_OPTION,
    fps: { type: 'string', value: 'RATE', help: 'frame rate of film, for the shutter angle and flicker' },
    pixels: {
      type: 'string',
      value: 'COUNT',
      help: 'pixels across the picture, for blur (6000 if left out)',
    },
  },
  async run(path, values, streams) {
    const rate_fps = numberOption(values, 'fps', 1, 10_000);
    const frameWidth_px = numberOption(values, 'pixels', 100, 100_000);
    const { document, model } = await openSet(path, values, streams);
    const report = lensReport(document, model, {
      setup: values.setup as string | undefined,
      camera: values.camera as string | undefined,
      rate_fps,
      frameWidth_px,
    });
    streams.out(values.json ? JSON.stringify(report) : lensSheetText(lensSheet(report)));
    return report.clean ? DONE : NO;
  },
};
