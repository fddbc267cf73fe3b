import { cureWords } from '../../paperwork/cure-words.ts';
import { glintSheet } from '../../paperwork/glint-sheet.ts';
import { chosenCamera } from '../../scene/camera/scene-camera.ts';
import { curesOf } from '../../scene/mirror/cures/cures.ts';
import { findSceneGlints } from '../../scene/mirror/find-scene-glints.ts';
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
import { answerAlong, answerClearRegion } from '../glint-questions.ts';
import { glintSheetText } from '../glint-sheet-text.ts';
import type { OpenedSet } from '../opened-set.ts';
import { UsageError } from '../usage-error.ts';

/** Mirror images of lamps: where, how strong, in frame or not, and what takes them away. */
export const glints: CommandLineCommand = {
  name: 'glints',
  answers: 'mirror images of lamps: where, how strong, in frame or not, cures',
  options: {
    setup: SETUP_OPTION,
    camera: CAMERA_OPTION,
    json: JSON_OPTION,
    uncorrected: UNCORRECTED_OPTION,
    'no-cures': { type: 'boolean', help: 'do not look for moves that take a glint away' },
    'clear-region': {
      type: 'string',
      value: 'LAMP',
      help: 'instead: where on plan this lamp may stand, at its height, without a glint',
    },
    solid: {
      type: 'string',
      multiple: true,
      value: 'ID',
      help: 'for --clear-region: glints in this solid only, given once for each (all if left out)',
    },
    within: {
      type: 'string',
      value: 'X,Z,X,Z',
      help: 'for --clear-region: look between these corners, m (6 m each way from the lamp if left out)',
    },
    mark: {
      type: 'string',
      value: 'ID',
      help: 'for --clear-region: stops at this mark (the one it lights most if left out)',
    },
    along: {
      type: 'string',
      value: 'PATH',
      help: 'instead: when along this move of a camera or a lamp there are glints in frame',
    },
  },
  async run(path, values, streams) {
    const question = questionOf(values);
    const opened = await openCorrectedSet(path, values, streams);
    if (question) return question(opened, streams);
    const { document, model } = opened;
    const report = findSceneGlints(document, model, {
      setup: values.setup as string | undefined,
      camera: values.camera as string | undefined,
      readings: opened.corrections?.readings.length,
    });
    const camera = chosenCamera(document, report.camera);
    const found = values['no-cures'] ? [] : curesOf({ document, model, camera });
    const curesFor = (lamp: string, solid: string) =>
      found.find((pair) => pair.lamp === lamp && pair.solid === solid);
    if (values.json) {
      const glints = report.glints.map((glint) => {
        const pair = glint.burns ? curesFor(glint.lamp, glint.solid) : undefined;
        return { ...glint, cures: pair?.cures ?? [], partialCures: pair?.partial ?? [] };
      });
      streams.out(JSON.stringify({ ...report, glints }));
    } else {
      const names = new Map([...model.lamps, ...model.owners].map(({ id, name }) => [id, name]));
      const words = (lamp: string, solid: string) => {
        const pair = curesFor(lamp, solid);
        return pair ? cureWords(pair, (id) => names.get(id) ?? id) : [];
      };
      streams.out(glintSheetText(glintSheet(report, words)));
    }
    return report.glints.some(({ burns }) => burns) ? NO : DONE;
  },
};

/** One of the two other questions, if it is asked. */
function questionOf(values: OptionValues) {
  const { 'clear-region': lamp, along } = values;
  if (lamp !== undefined && along !== undefined)
    throw new UsageError('--clear-region and --along: ask one at a time');
  if (lamp === undefined)
    for (const name of ['solid', 'within', 'mark'])
      if (values[name] !== undefined) throw new UsageError(`--${name} goes with --clear-region LAMP`);
  if (typeof lamp === 'string')
    return (opened: OpenedSet, streams: Streams) => answerClearRegion(opened, lamp, values, streams);
  if (typeof along === 'string')
    return (opened: OpenedSet, streams: Streams) => answerAlong(opened, along, values, streams);
  return null;
}
