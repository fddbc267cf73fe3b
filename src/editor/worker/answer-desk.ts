import { type Problem, SceneError } from '../../scene/problems/problem.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { AnswerKind, AnswerOf, AskedOf } from './answer-kinds.ts';
import { type AnswerSet, answerSetOf } from './answer-set.ts';
import { ANSWER_STEPS, type AnswerStep } from './answer-steps.ts';
import type { DocumentChanges } from './document-changes.ts';
import { type BesideFiles, newKeptSet } from './kept-set.ts';

export interface AnswerQuestion<K extends AnswerKind = AnswerKind> {
  readonly changes: DocumentChanges;
  /** Only when they are others than last time. */
  readonly beside?: BesideFiles;
  readonly setup: string | undefined;
  readonly camera: string | undefined;
  readonly kind: K;
  readonly asked: AskedOf<K>;
}

export interface Answered<K extends AnswerKind = AnswerKind> {
  /** Undefined where the scene does not allow the question; `problems` says why. */
  readonly answer: AnswerOf<K> | undefined;
  readonly problems: readonly Problem[];
}

/** Works in a worker of its own: everything that is asked of a scene beside its readings. */
export interface AnswerDesk {
  /** Null when another question or `leaveOff` came before it was done. `onStep` hears how far it is. */
  answer<K extends AnswerKind>(
    question: AnswerQuestion<K>,
    onStep?: (step: AnswerStep<K>) => void,
  ): Promise<Answered<K> | null>;
  leaveOff(): void;
}

/** These go by bodies and figures of the document alone. */
const WITHOUT_LIGHT: ReadonlySet<AnswerKind> = new Set([
  'power',
  'lens',
  'focus',
  'night',
  'stands',
  'readings',
]);

export function newAnswerDesk(): AnswerDesk {
  const kept = newKeptSet();
  const last = new Map<boolean, { readonly key: readonly unknown[]; readonly set: AnswerSet }>();
  let turn = 0;

  /** One set for all questions about the same scene. */
  const setFor = async (base: SceneDocument, { kind, setup, camera }: AnswerQuestion): Promise<AnswerSet> => {
    const light = !WITHOUT_LIGHT.has(kind);
    const key = [setup, camera, kept.beside(), ...Object.values(base)];
    const known = last.get(light);
    if (known?.key.length === key.length && known.key.every((part, i) => part === key[i])) return known.set;
    const set = await answerSetOf(kept, base, { setup, camera, light });
    last.set(light, { key, set });
    return set;
  };

  return {
    leaveOff() {
      turn++;
    },
    async answer<K extends AnswerKind>(
      question: AnswerQuestion<K>,
      onStep?: (step: AnswerStep<K>) => void,
    ): Promise<Answered<K> | null> {
      const mine = ++turn;
      const base = kept.take(question.changes, question.beside);
      try {
        const set = await setFor(base, question);
        const steps = ANSWER_STEPS[question.kind](set, question.asked, (share) => onStep?.({ share }));
        for (;;) {
          const { done, value } = steps.next();
          if (done) return { answer: value, problems: [] };
          onStep?.(value);
          // A newer question is heard in between.
          await new Promise((next) => setTimeout(next));
          if (turn !== mine) return null;
        }
      } catch (error) {
        if (!(error instanceof SceneError)) throw error;
        return { answer: undefined, problems: error.problems };
      }
    },
  };
}
