import { exposureSheet } from '../../paperwork/exposure-sheet.ts';
import { compileScene } from '../../scene/compile/compile-scene.ts';
import { meterScene } from '../../scene/meter/meter-scene.ts';
import { problemText, SceneError } from '../../scene/problems/problem.ts';
import { sceneInSetup } from '../../scene/setups/scene-in-setup.ts';
import { CAMERA_OPTION, type CommandLineCommand, JSON_OPTION, SETUP_OPTION } from '../command.ts';
import { DONE } from '../exit.ts';
import { exposureSheetText } from '../exposure-sheet-text.ts';
import { filesBeside, openSceneFile } from '../scene-input.ts';
import { UsageError } from '../usage-error.ts';

/** Illuminance and stops at each mark, by lamp. */
export const meter: CommandLineCommand = {
  name: 'meter',
  answers: 'illuminance and stops at each mark, by lamp, with ±',
  options: {
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    json: JSON_OPTION,
    direct: { type: 'boolean', help: 'direct light only (all that this version computes)' },
    error: {
      type: 'string',
      value: 'STOPS',
      help: 'wanted numerical error in stops, 95 % (0.02 if left out)',
    },
    unit: { type: 'string', value: 'lx|fc', help: 'illuminance in lux or foot-candles (lx if left out)' },
  },
  async run(path, values, streams) {
    const error_stops = wantedError(values.error as string | undefined);
    const unit = wantedUnit(values.unit as string | undefined);
    const opened = await openSceneFile(path);
    if (!opened.document) {
      for (const problem of opened.problems) streams.err(problemText(problem, path));
      throw new UsageError(`${path} is not a valid scene`);
    }
    const setup = values.setup as string | undefined;
    const document = sceneInSetup(opened.document, setup);
    const { files, problems } = await filesBeside(path, document);
    for (const problem of problems) streams.err(`${problem.severity}: ${problemText(problem, path)}`);
    if (problems.some((p) => p.severity === 'error'))
      throw new UsageError(`${path} names files that cannot be used`);

    const model = compileScene(document, files);
    const report = meterScene(document, model, {
      setup,
      camera: values.camera as string | undefined,
      error_stops,
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

function wantedError(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const error_stops = Number(text);
  if (text.trim() !== '' && error_stops >= 0.001 && error_stops <= 2) return error_stops;
  throw new UsageError(`--error ${text}: give stops from 0.001 to 2`);
}

function wantedUnit(text: string | undefined): 'lx' | 'fc' {
  if (text === undefined || text === 'lx') return 'lx';
  if (text === 'fc') return 'fc';
  throw new UsageError(`--unit ${text}: give lx or fc`);
}
