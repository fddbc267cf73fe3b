import { LIBRARY } from '../../scene/library/library.ts';
import { valueAt } from '../../scene/problems/problem.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Setup } from '../../scene/schema/setup.ts';
import { lengthText } from '../figures/length-text.ts';
import { numberText } from '../figures/number-text.ts';
import { fieldWords, valueWords } from '../properties/field-words.ts';
import { subjectOf } from '../properties/subject.ts';
import type { LengthSystem } from '../store/editor-state.ts';

/** What a setup changes of one thing. */
export interface ChangeWords {
  readonly id: string;
  readonly name: string;
  /** "Switched off", "Visibility 300 m, in the base 1200 m". */
  readonly fields: readonly string[];
}

/** What a setup changes against the base, thing by thing. */
export function changesInWords(
  base: SceneDocument,
  { changes }: Pick<Setup, 'changes'>,
  lengths: LengthSystem,
): ChangeWords[] {
  return Object.entries(changes).map(([id, patch]) => {
    const thing = subjectOf(base, id)?.thing;
    return {
      id,
      name: (thing as { name?: string } | undefined)?.name ?? fieldWords(id),
      fields: Object.entries(patch).map(([field, value]) => {
        const before = thing && valueAt(thing, [field]);
        const words = `${fieldWords(field)} ${inWords(base, field, value, lengths)}`;
        // A switch has only one other side.
        return before === undefined || typeof value === 'boolean'
          ? words
          : `${words}, in the base ${inWords(base, field, before, lengths)}`;
      }),
    };
  });
}

/** By the ends of the names of fields, which are units. */
const UNITS: Readonly<Record<string, string>> = {
  deg: '°',
  K: ' K',
  s: ' s',
  mm: ' mm',
  stops: ' stops',
  lx: ' lx',
  lm: ' lm',
  cd: ' cd',
  V: ' V',
  A: ' A',
  W: ' W',
};

function inWords(base: SceneDocument, field: string, value: unknown, lengths: LengthSystem): string {
  if (Array.isArray(value)) {
    if (value.length === 0) return 'none';
    return value.map((one) => inWords(base, field, one, lengths)).join(', ');
  }
  if (typeof value === 'number') {
    const unit = /_([a-z]+)$/i.exec(field)?.[1];
    if (unit === 'm') return lengthText(value, lengths);
    if (field === 'level') return `${numberText(100 * value, 1)} %`;
    return valueWords(value) + ((unit && UNITS[unit]) ?? '');
  }
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value)
      .map(([key, part]) => `${fieldWords(key).toLowerCase()} ${inWords(base, key, part, lengths)}`)
      .join(', ');
  }
  if (typeof value === 'string') return entryName(base, field, value) ?? valueWords(value);
  return valueWords(value);
}

/** The name of a filter or head that is named by its word in the document. */
function entryName(base: SceneDocument, field: string, word: string): string | undefined {
  if (field === 'filters') return (base.filters?.[word] ?? LIBRARY.filters[word])?.name;
  if (field === 'head') return (base.heads?.[word] ?? LIBRARY.heads[word])?.name;
  return undefined;
}
