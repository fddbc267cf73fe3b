import { valueAt } from '../../scene/problems/problem.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Setup } from '../../scene/schema/setup.ts';
import { fieldWords, valueWords } from '../properties/field-words.ts';
import { subjectOf } from '../properties/subject.ts';

/** What a setup changes of one thing. */
export interface ChangeWords {
  readonly id: string;
  readonly name: string;
  /** "Switched off", "Level 0.25, in the base 0.5". */
  readonly fields: readonly string[];
}

/** What a setup changes against the base, thing by thing. */
export function changesInWords(base: SceneDocument, { changes }: Setup): ChangeWords[] {
  return Object.entries(changes).map(([id, patch]) => {
    const thing = subjectOf(base, id)?.thing;
    return {
      id,
      name: (thing as { name?: string } | undefined)?.name ?? fieldWords(id),
      fields: Object.entries(patch).map(([field, value]) => {
        const before = thing && valueAt(thing, [field]);
        const words = `${fieldWords(field)} ${valueWords(value)}`;
        // A switch has only one other side.
        return before === undefined || typeof value === 'boolean'
          ? words
          : `${words}, in the base ${valueWords(before)}`;
      }),
    };
  });
}
