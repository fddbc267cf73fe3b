import { writeFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { balanceSheet, whiteBalanceSheet } from '../../paperwork/balance-sheet.ts';
import { balanceScene } from '../../scene/balance/balance-scene.ts';
import { parseWants } from '../../scene/balance/wants.ts';
import { whiteBalanceReport } from '../../scene/balance/white-balance.ts';
import { withLevels } from '../../scene/balance/with-levels.ts';
import { compileScene, newCompileMemo } from '../../scene/compile/compile-scene.ts';
import { saveScene } from '../../scene/file/save-scene.ts';
import { LIBRARY } from '../../scene/library/library.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import {
  CAMERA_OPTION,
  type CommandLineCommand,
  JSON_OPTION,
  type OptionValues,
  SETUP_OPTION,
} from '../command.ts';
import { openCorrectedSet, UNCORRECTED_OPTION } from '../corrected-set.ts';
import { DONE, NO } from '../exit.ts';
import { namesIn } from '../names-in.ts';
import { tablesSheetText } from '../tables-sheet-text.ts';
import { UsageError } from '../usage-error.ts';

/** Lamp levels for wanted stops, and the white balance that parts cool and warm evenly. */
export const balance: CommandLineCommand = {
  name: 'balance',
  answers: 'lamp levels for wanted stops, and what to do where levels cannot; even white balance',
  options: {
    want: {
      type: 'string',
      value: 'MARK:LAMP=STOPS,…',
      help: "stops over the camera's zero of one lamp at a mark, or MARK=STOPS of all light there",
    },
    'white-balance': {
      type: 'boolean',
      help: 'instead: the kelvin that parts cool and warm lamps evenly',
    },
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    uncorrected: UNCORRECTED_OPTION,
    json: JSON_OPTION,
    write: {
      type: 'string',
      value: 'FILE',
      help: 'save the scene with the new levels; not over a file that is there',
    },
    overwrite: { type: 'boolean', help: 'with --write: over a file that is there too' },
  },
  async run(path, values, streams) {
    checkTogether(values);
    const set = await openCorrectedSet(path, values, streams);
    const { base, document, files, corrections } = set;
    const asked = {
      setup: values.setup as string | undefined,
      camera: values.camera as string | undefined,
    };
    const names = namesIn(document);
    if (values['white-balance']) {
      const report = whiteBalanceReport(document, set.model, asked);
      streams.out(values.json ? JSON.stringify(report) : tablesSheetText(whiteBalanceSheet(report, names)));
      return report.split ? DONE : NO;
    }
    const memo = newCompileMemo();
    const report = balanceScene(document, {
      ...asked,
      wants: parseWants(values.want as string, document),
      corrections,
      compile: (variant) => correctedModel(compileScene(variant, files, LIBRARY, memo), variant, corrections),
    });
    const file = values.write as string | undefined;
    if (file !== undefined) {
      await write(file, saveScene(withLevels(base, asked.setup, report.lamps)), values.overwrite === true);
      if (dirname(resolve(file)) !== dirname(resolve(path)) && namesFiles(base))
        streams.err(`${file}: keep it in the folder of ${path}: the scene names files that stand beside it`);
    }
    streams.out(values.json ? JSON.stringify(report) : tablesSheetText(balanceSheet(report, names)));
    if (file !== undefined) streams.err(`${file}: written with the new levels`);
    return report.reached ? DONE : NO;
  },
};

function checkTogether(values: OptionValues): void {
  const [want, white] = [values.want !== undefined, values['white-balance'] === true];
  if (want === white)
    throw new UsageError(
      want
        ? '--want and --white-balance are two questions: ask one at a time'
        : 'say what is wanted: --want ada-face:key=-1,ben-face=0 (stops), or --white-balance',
    );
  if (values.write !== undefined && white) throw new UsageError('--write goes with --want');
  if (values.overwrite && values.write === undefined)
    throw new UsageError('--overwrite goes with --write FILE');
}

async function write(file: string, text: string, overwrite: boolean): Promise<void> {
  try {
    await writeFile(file, text, { flag: overwrite ? 'w' : 'wx' });
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST')
      throw new UsageError(`--write ${file}: there already; add --overwrite to replace it`);
    throw new UsageError(`--write ${file}: ${code === 'ENOENT' ? 'no such folder' : message}`);
  }
}

function namesFiles(document: SceneDocument): boolean {
  const photometric = Object.values(document.heads ?? {}).some(
    ({ photometry }) => photometry.kind === 'file' && photometry.text === undefined,
  );
  return photometric || (document.solids ?? []).some((solid) => solid.shape === 'mesh');
}
