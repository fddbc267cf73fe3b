import { powerSheet } from '../../paperwork/power-sheet.ts';
import { meterScene } from '../../scene/meter/meter-scene.ts';
import { powerScene } from '../../scene/power/power-scene.ts';
import { SceneError } from '../../scene/problems/problem.ts';
import {
  CAMERA_OPTION,
  type CommandLineCommand,
  JSON_OPTION,
  type OptionValues,
  SETUP_OPTION,
  type Streams,
} from '../command.ts';
import { openCorrectedSet, UNCORRECTED_OPTION } from '../corrected-set.ts';
import { DONE, NO } from '../exit.ts';
import { checkCamera } from '../named-camera.ts';
import { numberOption } from '../number-option.ts';
import { openSet } from '../opened-set.ts';
import { tablesSheetText } from '../tables-sheet-text.ts';
import { UsageError } from '../usage-error.ts';

/** What the lamps draw, whether the supplies carry it, and what is lost with one of them. */
export const power: CommandLineCommand = {
  name: 'power',
  answers: 'load of each supply, voltage drop, generator and fuel, what fits; exit 1 where a limit is passed',
  options: {
    setup: SETUP_OPTION,
    json: JSON_OPTION,
    hours: { type: 'string', value: 'H', help: 'how long it runs, for fuel and batteries (6 if left out)' },
    fuel: { type: 'string', value: 'L_PER_KWH', help: 'what the generator burns (0.5 if left out)' },
    drop: { type: 'string', value: 'PERCENT', help: 'most that a cable may lose (3 if left out)' },
    'cable-temp': {
      type: 'string',
      value: 'C',
      help: 'temperature of the cable’s copper (20 °C if left out)',
    },
    'if-lost': {
      type: 'boolean',
      help: 'what each mark loses with a lamp or a supply; takes as long as meter',
    },
    direct: { type: 'boolean', help: 'with --if-lost: straight light only, at once' },
    camera: { ...CAMERA_OPTION, help: 'with --if-lost: facing this camera (the first if left out)' },
    uncorrected: UNCORRECTED_OPTION,
  },
  async run(path, values, streams) {
    const request = {
      setup: values.setup as string | undefined,
      hours: numberOption(values, 'hours', 0, 1000),
      fuel_L_per_kWh: numberOption(values, 'fuel', 0.05, 5),
      limit_percent: numberOption(values, 'drop', 0.1, 50),
      temperature_C: numberOption(values, 'cable-temp', -40, 150),
    };
    const { document, metered } = await openedFor(path, values, streams);
    if (!document.lamps?.length) throw new SceneError([NO_LAMPS]);
    const report = powerScene(document, { ...request, metered });
    const sheet = powerSheet(report);
    const { warnings, cautions } = sheet;
    streams.out(values.json ? JSON.stringify({ ...report, warnings, cautions }) : tablesSheetText(sheet));
    return report.supplies.some((supply) => supply.over || supply.dropOver) ? NO : DONE;
  },
};

async function openedFor(path: string, values: OptionValues, streams: Streams) {
  if (!values['if-lost']) {
    for (const option of ['direct', 'uncorrected'])
      if (values[option] !== undefined) throw new UsageError(`--${option} goes with --if-lost`);
    const { document } = await openSet(path, values, streams);
    checkCamera(document, values);
    return { document, metered: undefined };
  }
  const { document, model, corrections } = await openCorrectedSet(path, values, streams);
  if (!document.marks?.length) throw new SceneError([NO_MARKS]);
  const metered = meterScene(document, model, {
    corrections,
    setup: values.setup as string | undefined,
    camera: values.camera as string | undefined,
    light: values.direct ? 'direct' : 'all',
  });
  return { document, metered };
}

const NO_LAMPS = {
  severity: 'error',
  path: 'lamps',
  at: ['lamps'],
  found: 'no lamps',
  expected: 'at least one, or there is nothing to power',
} as const;

const NO_MARKS = {
  severity: 'error',
  path: 'marks',
  at: ['marks'],
  found: 'no marks',
  expected: 'at least one place where the meter is held, to say what is lost there',
} as const;
