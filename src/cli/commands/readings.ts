import { readingsSheet } from '../../paperwork/readings-sheet.ts';
import { problemAt, SceneError } from '../../scene/problems/problem.ts';
import { readingsReport } from '../../scene/readings/readings-report.ts';
import { type CommandLineCommand, JSON_OPTION } from '../command.ts';
import { DONE, NO } from '../exit.ts';
import { namesIn } from '../names-in.ts';
import { openSet } from '../opened-set.ts';
import { tablesSheetText } from '../tables-sheet-text.ts';

/** What the readings of the night say about lamps and haze. */
export const readings: CommandLineCommand = {
  name: 'readings',
  answers: 'readings of the night against the plan: corrections, residuals, which reading to take next',
  options: { json: JSON_OPTION },
  async run(path, values, streams) {
    const { base, files } = await openSet(path, {}, streams);
    if (!base.marks?.length)
      throw new SceneError([
        problemAt(base, ['marks'], { found: 'no marks', expected: 'places where the meter is held' }),
      ]);
    const report = readingsReport(base, files);
    streams.out(values.json ? JSON.stringify(report) : tablesSheetText(readingsSheet(report, namesIn(base))));
    return report.readings.some((reading) => reading.outlier) ? NO : DONE;
  },
};
