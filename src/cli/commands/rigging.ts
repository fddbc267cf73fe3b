import { riggingSheet } from '../../paperwork/rigging-sheet.ts';
import { SceneError } from '../../scene/problems/problem.ts';
import { riggingScene } from '../../scene/rigging/rigging-scene.ts';
import { CAMERA_OPTION, type CommandLineCommand, JSON_OPTION, SETUP_OPTION } from '../command.ts';
import { DONE, NO } from '../exit.ts';
import { checkCamera } from '../named-camera.ts';
import { numberOption } from '../number-option.ts';
import { openSet } from '../opened-set.ts';
import { tablesSheetText } from '../tables-sheet-text.ts';

/** Whether stands reach, and what wind tips them. */
export const rigging: CommandLineCommand = {
  name: 'rigging',
  answers: 'heights of stands, ballast against wind; a screen only (exit 1 where one fails)',
  options: {
    setup: SETUP_OPTION,
    camera: { ...CAMERA_OPTION, help: 'taken, and makes no difference here' },
    json: JSON_OPTION,
    wind: { type: 'string', value: 'M_PER_S', help: 'instead of the site’s own wind' },
  },
  async run(path, values, streams) {
    const wind_m_s = numberOption(values, 'wind', 0, 60);
    const { document, model } = await openSet(path, values, streams);
    checkCamera(document, values);
    if (!document.lamps?.length) throw new SceneError([NO_LAMPS]);
    const report = riggingScene(document, model, { setup: values.setup as string | undefined, wind_m_s });
    const sheet = riggingSheet(report);
    const { warnings, cautions } = sheet;
    streams.out(values.json ? JSON.stringify({ ...report, warnings, cautions }) : tablesSheetText(sheet));
    return report.stands.some((stand) => stand.fails) ? NO : DONE;
  },
};

const NO_LAMPS = {
  severity: 'error',
  path: 'lamps',
  at: ['lamps'],
  found: 'no lamps',
  expected: 'at least one, or there is nothing on a stand',
} as const;
