import { nightSheet } from '../../paperwork/night-sheet.ts';
import { nightReport } from '../../scene/night/night-report.ts';
import { CAMERA_OPTION, type CommandLineCommand, JSON_OPTION, SETUP_OPTION } from '../command.ts';
import { DONE, NO } from '../exit.ts';
import { nightSheetText } from '../night-sheet-text.ts';
import { numberOption } from '../number-option.ts';
import { openSet } from '../opened-set.ts';

/** When it is dark enough, and what light sun, moon and stars give at the place and time of the scene. */
export const night: CommandLineCommand = {
  name: 'night',
  answers: 'sun, moon and twilight of the scene’s night; when it is dark enough (exit 1: never)',
  options: {
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    json: JSON_OPTION,
    under: {
      type: 'string',
      value: 'STOPS',
      help: 'dark enough is so many stops under the camera (6 if left out)',
    },
  },
  async run(path, values, streams) {
    const under_stops = numberOption(values, 'under', -10, 30);
    const { document } = await openSet(path, values, streams);
    const report = nightReport(document, {
      setup: values.setup as string | undefined,
      camera: values.camera as string | undefined,
      under_stops,
    });
    streams.out(values.json ? JSON.stringify(report) : nightSheetText(nightSheet(report)));
    return report.dark?.spans.length === 0 ? NO : DONE;
  },
};
