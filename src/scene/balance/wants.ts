import { nearestName } from '../problems/nearest-name.ts';
import { type Problem, problemAt, SceneError, shown } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';

/** What a mark is to read, over the camera's zero: from one lamp alone, or (lamp null) from everything together. */
export interface Want {
  readonly mark: string;
  readonly lamp: string | null;
  readonly stops: number;
}

const FORM = 'mark:lamp=stops or mark=stops, with commas between, such as ada-face:key=-1,ben-face=0';
const STOPS = /^([+\u2212-]?)(\d*(?:\.\d*)?)([⅓⅔½]?)$/;
const FRACTIONS: Readonly<Record<string, number>> = { '': 0, '⅓': 1 / 3, '⅔': 2 / 3, '½': 1 / 2 };
/** Beyond this no meter reads and no lamp reaches. */
const MOST_STOPS = 20;

/** Reads `mark:lamp=stops,mark=stops,…`. Throws SceneError with every slip at once. */
export function parseWants(text: string, document: SceneDocument): Want[] {
  const wants: Want[] = [];
  const problems: Problem[] = [];
  for (const part of text.split(',')) {
    const read = parseWant(part.trim(), document);
    if ('found' in read) problems.push(read);
    else if (wants.some((w) => w.mark === read.mark && w.lamp === read.lamp))
      problems.push(said(`${shown(part.trim())}, wanted twice`, 'one figure for each mark and lamp'));
    else wants.push(read);
  }
  if (problems.length > 0) throw new SceneError(problems);
  return wants;
}

function parseWant(part: string, document: SceneDocument): Want | Problem {
  const [place, figure, ...more] = part.split('=');
  if (!place || figure === undefined || more.length > 0) return said(shown(part), FORM);
  const [mark, lamp, ...others] = place.split(':').map((name) => name.trim());
  if (!mark || lamp === '' || others.length > 0) return said(shown(part), FORM);
  const stops = parseStops(figure.trim());
  if (stops === null)
    return said(
      shown(part),
      `stops over the camera's zero, −${MOST_STOPS} to ${MOST_STOPS}, such as -1 or +0.5`,
    );
  const marks = (document.marks ?? []).map((m) => m.id);
  if (!marks.includes(mark)) return unknown(`no mark ${shown(mark)}`, mark, marks, 'no marks');
  if (lamp === undefined) return { mark, lamp: null, stops };
  const lamps = document.lamps ?? [];
  const found = lamps.find((l) => l.id === lamp);
  if (!found)
    return unknown(
      `no lamp ${shown(lamp)}`,
      lamp,
      lamps.map((l) => l.id),
      'no lamps',
    );
  if (found.on === false)
    return said(`${shown(part)}, but lamp ${lamp} is off`, 'a lamp that is on: switch it on');
  return { mark, lamp, stops };
}

/** Decimals, or thirds and halves as the meter prints them: −1, 0.5, +1⅓. Null when it is neither. */
function parseStops(text: string): number | null {
  const match = STOPS.exec(text);
  if (!match) return null;
  const [, sign, whole, fraction] = match as unknown as [string, string, string, string];
  if ((whole === '' || whole === '.') && fraction === '') return null;
  const size = Number(whole === '' ? 0 : whole) + FRACTIONS[fraction]!;
  if (!Number.isFinite(size) || size > MOST_STOPS) return null;
  return sign === '-' || sign === '\u2212' ? 0 - size : size;
}

function unknown(found: string, name: string, known: readonly string[], none: string): Problem {
  const expected = known.length > 0 ? `one of ${known.join(', ')}` : `none: the scene has ${none}`;
  return said(found, expected, nearestName(name, known));
}

function said(found: string, expected: string, nearest?: string): Problem {
  return problemAt(undefined, ['--want'], { found, expected, nearest });
}
