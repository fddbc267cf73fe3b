import { separationSheet } from '../../paperwork/separation-sheet.ts';
import { compileScene, newCompileMemo } from '../../scene/compile/compile-scene.ts';
import { LIBRARY } from '../../scene/library/library.ts';
import { monochromeNamed } from '../../scene/monochrome/monochrome.ts';
import { correctedModel } from '../../scene/readings/corrected-model.ts';
import type { Monochrome } from '../../scene/schema/camera.ts';
import { conversionRows } from '../../scene/separation/conversions.ts';
import { readSeparation } from '../../scene/separation/read-separation.ts';
import { separationReport } from '../../scene/separation/separation-report.ts';
import { wardrobeRows } from '../../scene/separation/wardrobe.ts';
import {
  CAMERA_OPTION,
  type CommandLineCommand,
  JSON_OPTION,
  type OptionValues,
  SETUP_OPTION,
} from '../command.ts';
import { openCorrectedSet, UNCORRECTED_OPTION } from '../corrected-set.ts';
import { DONE, NO } from '../exit.ts';
import { numberOption } from '../number-option.ts';
import { tablesSheetText } from '../tables-sheet-text.ts';
import { UsageError } from '../usage-error.ts';

/** How each figure's outline stands out from what is behind it. */
export const separation: CommandLineCommand = {
  name: 'separation',
  answers: 'how each figure stands out from what is behind it; exit 1 when one merges',
  options: {
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    uncorrected: UNCORRECTED_OPTION,
    json: JSON_OPTION,
    figure: { type: 'string', value: 'ID', help: 'this figure only' },
    error: {
      type: 'string',
      value: 'STOPS',
      help: 'wanted numerical error in stops, 95 % (0.1 if left out)',
    },
    wardrobe: { type: 'boolean', help: 'what if: the figure in every cloth of the library' },
    monochrome: {
      type: 'string',
      value: 'NAME',
      help: "luminance, yellow, orange, red, green, blue, weights R,G,B, or none for colour (the camera's if left out)",
    },
    'monochrome-table': { type: 'boolean', help: 'what if: every monochrome conversion' },
  },
  async run(path, values, streams) {
    const error_stops = numberOption(values, 'error', 0.02, 2);
    const monochrome = wantedMonochrome(values);
    const set = await openCorrectedSet(path, values, streams);
    const read = readSeparation(set.document, set.model, {
      setup: values.setup as string | undefined,
      camera: values.camera as string | undefined,
      figure: values.figure as string | undefined,
      error_stops,
      monochrome,
      readings: set.corrections?.readings.length,
    });
    const report = separationReport(read);
    const memo = newCompileMemo();
    const whatIf = {
      wardrobe: values.wardrobe
        ? new Map(
            read.figures.map((figure) => [
              figure.figure.id,
              wardrobeRows(read, figure, (variant) =>
                correctedModel(compileScene(variant, set.files, LIBRARY, memo), variant, set.corrections),
              ),
            ]),
          )
        : undefined,
      conversions: values['monochrome-table']
        ? new Map(read.figures.map((figure) => [figure.figure.id, conversionRows(read, figure)]))
        : undefined,
    };
    if (values.json) {
      const figures = report.figures.map(({ outline, ...figure }) => ({
        ...figure,
        ...(outline ?? UNSEEN),
        ...(whatIf.wardrobe && { wardrobe: whatIf.wardrobe.get(figure.id) }),
        ...(whatIf.conversions && { conversions: whatIf.conversions.get(figure.id) }),
      }));
      streams.out(JSON.stringify({ ...report, figures }));
    } else streams.out(tablesSheetText(separationSheet(report, whatIf)));
    const outlines = report.figures.flatMap(({ outline }) => outline ?? []);
    // Where no figure is seen at all, there is nothing that could stand out.
    return outlines.length > 0 && !outlines.some(({ merges }) => merges) ? DONE : NO;
  },
};

/** A figure that is out of frame or hidden has no outline to speak of. */
const UNSEEN = { share_over_1_stop: null, median_stops: null, worst: null, deltaE: null, merges: null };

function wantedMonochrome(values: OptionValues): Monochrome | null | undefined {
  const text = values.monochrome as string | undefined;
  if (text === undefined) return undefined;
  if (text === 'none') return null;
  const named = monochromeNamed(text);
  if (typeof named !== 'string') return named;
  throw new UsageError(`--monochrome ${text}: ${named}`);
}
