import { describe, expect, it } from 'vitest';
import { type AnswersState, createAnswersStore } from '../../../src/editor/answers/answers-state.ts';
import { answerFreshness } from '../../../src/editor/answers/asking.ts';
import { keepAnswers } from '../../../src/editor/answers/keep-answers.ts';
import type { Scene } from '../../../src/editor/store/editor-state.ts';
import { createEditorStore } from '../../../src/editor/store/editor-store.ts';
import { beginGesture, edit, endGesture } from '../../../src/editor/store/edits.ts';
import type { AnswerDesk, Answered, AnswerQuestion } from '../../../src/editor/worker/answer-desk.ts';
import type { AnswerKind } from '../../../src/editor/worker/answer-kinds.ts';
import type { AnswerStep } from '../../../src/editor/worker/answer-steps.ts';
import { smallScene } from '../../support/scenes.ts';

const SCENE: Scene = { document: smallScene(), beside: new Map() };
const PATIENCE_ms = 20;

interface Asked {
  readonly question: AnswerQuestion;
  readonly onStep: ((step: AnswerStep) => void) | undefined;
  readonly answer: (answered: Answered | null) => void;
  readonly fail: (error: Error) => void;
}

/** Desks whose answers are given by hand; one that is closed fails what it was asked. */
function desksByHand() {
  const asked: Asked[] = [];
  let opened = 0;
  let closed = 0;
  let leftOff = 0;
  const start = () => {
    const own: Asked[] = [];
    opened++;
    const answer = (question: AnswerQuestion, onStep?: (step: AnswerStep) => void) =>
      new Promise<Answered | null>((resolve, reject) => {
        const one = { question, onStep, answer: resolve, fail: reject };
        asked.push(one);
        own.push(one);
      });
    return {
      answer: answer as AnswerDesk['answer'],
      leaveOff: () => {
        leftOff++;
      },
      close: () => {
        closed++;
        for (const { fail } of own) fail(new Error('ended'));
      },
    };
  };
  return { start, asked, counts: () => ({ opened, closed, leftOff }) };
}

function atWork() {
  const store = createEditorStore();
  store.setState({ scene: SCENE });
  const answers = createAnswersStore();
  const desks = desksByHand();
  const keeper = keepAnswers(store, answers, desks.start, PATIENCE_ms);
  const open = (...kinds: AnswerKind[]) =>
    answers.setState({ open: new Map(kinds.map((kind) => [kind, 1])) });
  const dim = (level: number) => edit(store, { do: 'change', id: 'key', patch: { level } });
  const freshness = (kind: AnswerKind) => answerFreshness(kind, store.getState(), answers.getState());
  const kinds = () => desks.asked.map(({ question }) => question.kind);
  return { store, answers, keeper, open, dim, freshness, kinds, ...desks };
}

/** Enough of an answer to be told from another. */
function answered(title: string): Answered {
  return { answer: { report: { title, glints: [] }, cures: null } as never, problems: [] };
}

const titleOf = ({ answers }: AnswersState, kind: AnswerKind) =>
  (answers[kind]?.answer as unknown as { report: { title: string } } | undefined)?.report.title;

const heard = () => new Promise((done) => setTimeout(done));
const longer = () => new Promise((done) => setTimeout(done, 3 * PATIENCE_ms));

describe('answers while the scene is edited', () => {
  it('starts no desk before something is asked, and asks only what is open', async () => {
    const { open, kinds, counts, asked, freshness } = atWork();
    expect(counts().opened).toBe(0);
    open('power', 'glints');
    await heard();
    expect(counts().opened).toBe(1);
    expect(kinds()).toEqual(['power']);
    expect(freshness('power')).toBe('missing');
    asked[0]!.answer(answered('power'));
    await heard();
    expect(kinds()).toEqual(['power', 'glints']);
    expect(freshness('power')).toBe('fresh');
    expect(counts().opened).toBe(1);
  });

  it('shows the last answer as stale until the new one is there, and asks for the latest alone', async () => {
    const { open, dim, asked, answers, freshness } = atWork();
    open('stands');
    await heard();
    asked[0]!.answer(answered('first'));
    await heard();
    for (const level of [0.9, 0.8, 0.7]) dim(level);
    expect(freshness('stands')).toBe('stale');
    expect(titleOf(answers.getState(), 'stands')).toBe('first');
    asked[1]!.answer(null);
    await heard();
    expect(asked).toHaveLength(3);
    expect(asked[2]!.question.changes.set.lamps?.[0]?.level).toBe(0.7);
    asked[2]!.answer(answered('last'));
    await heard();
    expect([titleOf(answers.getState(), 'stands'), freshness('stands')]).toEqual(['last', 'fresh']);
    expect(asked).toHaveLength(3);
  });

  it('sends only what an edit has changed', async () => {
    const { open, dim, asked } = atWork();
    open('stands');
    await heard();
    asked[0]!.answer(answered('first'));
    await heard();
    dim(0.5);
    await heard();
    expect(Object.keys(asked[1]!.question.changes.set)).toEqual(['lamps']);
    expect(asked[1]!.question.beside).toBeUndefined();
  });

  it('lets only the quick ones follow a drag', async () => {
    const { store, open, dim, kinds, asked } = atWork();
    beginGesture(store, 'drag');
    open('glints', 'power');
    await heard();
    expect(kinds()).toEqual(['power']);
    asked[0]!.answer(answered('power'));
    await heard();
    dim(0.5);
    await heard();
    expect(kinds()).toEqual(['power', 'power']);
    asked[1]!.answer(answered('power'));
    await heard();
    endGesture(store);
    await heard();
    expect(kinds()).toEqual(['power', 'power', 'glints']);
  });

  it('shows what there is of a long answer, and gives it to the frame', async () => {
    const { open, asked, answers, freshness } = atWork();
    open('glints');
    await heard();
    expect(asked[0]!.question.asked).toEqual({ cures: true });
    const seen = {
      pixel: [0.5, 0.4],
      stops: 9,
      lamp: 'key',
      lampName: 'Key',
      solid: 'card',
      solidName: 'Card',
    };
    const glint = { ...seen, inFrame: true, burns: true };
    const behind = { ...glint, pixel: null };
    const soFar = { report: { glints: [glint, behind] }, cures: null } as never;
    asked[0]!.onStep!({ share: 0.3, soFar });
    expect(freshness('glints')).toBe('partial');
    expect(answers.getState().working?.share).toBe(0.3);
    expect(answers.getState().glints?.items).toEqual([glint]);
    expect(answers.getState().glints?.camera).toBe('a');
    asked[0]!.answer(answered('all'));
    await heard();
    expect(freshness('glints')).toBe('fresh');
    expect(answers.getState().working).toBeNull();
  });

  it('looks for no cures for the frame alone, and not anew when the panel closes', async () => {
    const { open, asked, answers } = atWork();
    answers.setState({ wanted: new Set(['glints']) });
    await heard();
    expect(asked[0]!.question.asked).toEqual({ cures: false });
    asked[0]!.answer(answered('without'));
    await heard();
    open('glints');
    await heard();
    expect(asked[1]!.question.asked).toEqual({ cures: true });
    asked[1]!.answer(answered('with'));
    await heard();
    open();
    await heard();
    expect(asked).toHaveLength(2);
  });

  it('takes the worker from a question that nobody asks any more and that does not end', async () => {
    const { open, dim, asked, counts, kinds } = atWork();
    open('walk');
    await heard();
    dim(0.5);
    await heard();
    expect(counts()).toEqual({ opened: 1, closed: 0, leftOff: 1 });
    await longer();
    expect(counts()).toEqual({ opened: 2, closed: 1, leftOff: 1 });
    expect(kinds()).toEqual(['walk', 'walk']);
    // The new desk knows nothing yet.
    expect(asked[1]!.question.changes.kept).toEqual([]);
  });

  it('can be called off, and begins again when it is asked for', async () => {
    const { open, keeper, asked, counts, answers, freshness } = atWork();
    open('separation');
    await heard();
    keeper.callOff();
    await heard();
    expect(counts().closed).toBe(1);
    expect(asked).toHaveLength(1);
    expect(answers.getState().failure).toBeNull();
    expect(answers.getState().working).toBeNull();
    keeper.askAgain();
    await heard();
    expect(asked).toHaveLength(2);
    asked[1]!.answer(answered('done'));
    await heard();
    expect(freshness('separation')).toBe('fresh');
  });

  it('says what failed, and waits to be told to start again', async () => {
    const { open, dim, keeper, asked, answers, counts } = atWork();
    open('walk');
    await heard();
    asked[0]!.fail(new Error('out of memory'));
    await heard();
    expect(answers.getState().failure).toBe('out of memory');
    dim(0.5);
    await heard();
    expect(asked).toHaveLength(1);
    keeper.askAgain();
    await heard();
    expect(asked).toHaveLength(2);
    expect(counts().opened).toBe(2);
    expect(answers.getState().failure).toBeNull();
  });

  it('begins clothes anew only when somebody asks', async () => {
    const { open, dim, asked, answers, freshness } = atWork();
    const wardrobe = { figure: 'ada' };
    answers.setState((state) => ({ asked: { ...state.asked, wardrobe } }));
    open('wardrobe');
    await heard();
    asked[0]!.answer(answered('cloths'));
    await heard();
    dim(0.5);
    await heard();
    expect(asked).toHaveLength(1);
    expect(freshness('wardrobe')).toBe('stale');
    answers.setState((state) => ({ asked: { ...state.asked, wardrobe: { figure: 'ada' } } }));
    await heard();
    expect(asked).toHaveLength(2);
  });

  it('asks for the readings of the base, whatever is looked at', async () => {
    const { store, open, asked } = atWork();
    store.setState({
      camera: 'a',
      scene: { ...SCENE, document: { ...SCENE.document, setups: [{ id: '1', changes: {} }] } },
      setup: '1',
    });
    open('readings');
    await heard();
    expect(asked[0]!.question.setup).toBeUndefined();
    expect(asked[0]!.question.camera).toBeUndefined();
  });
});
