import { exposureSheet } from '../../paperwork/exposure-sheet.ts';
import { meterScene } from '../../scene/meter/meter-scene.ts';
import { SceneError } from '../../scene/problems/problem.ts';
import { CAMERA_OPTION, type CommandLineCommand, JSON_OPTION, SETUP_OPTION } from '../command.ts';
import { openCorrectedSet, UNCORRECTED_OPTION } from '../corrected-set.ts';
import { DONE } from '../exit.ts';
import { exposureSheetText } from '../exposure-sheet-text.ts';
import { numberOption } from '../number-option.ts';
import { UsageError } from '../usage-error.ts';

/** Illuminance and stops at each mark, by lamp. */
export const meter: CommandLineCommand = {
  name: 'meter',
  answers: 'illuminance and stops at each mark, by lamp, with ±',
  options: {
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    json: JSON_OPTION,
    direct: { type: 'boolean', help: 'straight light only, without bounce and haze glow' },
    error: {
      type: 'string',
      value: 'STOPS',
      help: 'wanted numerical error in stops, 95 % (0.05 if left out)',
    },
    uncorrected: UNCORRECTED_OPTION,
    unit: { type: 'string', value: 'lx|fc', help: 'illuminance in lux or foot-candles (lx if left out)' },
  },
  async run(path, values, streams) {
    const error_stops = numberOption(values, 'error', 0.001, 2);
    const unit = wantedUnit(values.unit as string | undefined);
    const { document, model, corrections } = await openCorrectedSet(path, values, streams);
    const report = meterScene(document, model, {
      corrections,
      setup: values.setup as string | undefined,
      camera: values.camera as string | undefined,
      error_stops,
      light: values.direct ? 'direct' : 'all',
    });
    if (report.marks.length === 0) throw new SceneError([NO_MARKS]);
    streams.out(values.json ? JSON.stringify(report) : exposureSheetText(exposureSheet(report, unit)));
    return DONE;
  },
};

const NO_MARKS = {
  severity: 'error',
  path: 'marks',
  at: ['marks'],
  found: 'no marks',
  expected: 'at least one place where the meter is held',
} as const;

function wantedUnit(text: string | undefined): 'lx' | 'fc' {
  if (text === undefined || text === 'lx') return 'lx';
  if (text === 'fc') return 'fc';
  throw new UsageError(`--unit ${text}: give lx or fc`);
}
