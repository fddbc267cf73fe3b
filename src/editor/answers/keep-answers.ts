import type { Scene } from '../store/editor-state.ts';
import type { EditorStore } from '../store/editor-store.ts';
import type { Answered } from '../worker/answer-desk.ts';
import type { AnswerStep } from '../worker/answer-steps.ts';
import type { WorkerAnswerDesk } from '../worker/answer-worker-desk.ts';
import { changesSince } from '../worker/document-changes.ts';
import { latestWins } from '../worker/latest-wins.ts';
import type { AnswersStore, Asking, ShownAnswer } from './answers-state.ts';
import { isSame, isStillAsked, nextAsking } from './asking.ts';
import { overFrame } from './over-frame.ts';

export interface AnswersKeeper {
  /** Calls off what is being worked out, at once. It is not begun again until it is asked for or something changes. */
  callOff(): void;
  /** Asks again for what was called off or has failed. */
  askAgain(): void;
  stop(): void;
}

/** A question that nobody waits for any more and that does not end by itself has its worker taken away after this. */
const PATIENCE_ms = 1500;

/**
 * Keeps the answers that are open on the page or wanted over the frame those of the scene in the store, one after the other
 * at one desk, which is started when it is first needed.
 */
export function keepAnswers(
  store: EditorStore,
  answers: AnswersStore,
  startDesk: () => WorkerAnswerDesk,
  patience_ms = PATIENCE_ms,
): AnswersKeeper {
  let desk: WorkerAnswerDesk | null = null;
  let told: Scene | null = null;
  let running: Asking | null = null;
  let stopped = false;

  const putAway = () => {
    desk?.close();
    desk = null;
    told = null;
  };

  const show = (to: Asking, answered: Answered, whole: boolean) => {
    const shown: ShownAnswer = { to, ...answered, whole };
    answers.setState((state) => ({
      answers: { ...state.answers, [to.kind]: shown },
      ...overFrame(shown),
    }));
  };

  const ask = async (to: Asking): Promise<void> => {
    desk ??= startDesk();
    const mine = desk;
    const { kind, asked, setup, camera } = to;
    const changes = changesSince(told?.document ?? null, to.scene.document);
    const beside = told?.beside === to.scene.beside ? {} : { beside: to.scene.beside };
    told = to.scene;
    running = to;
    answers.setState({ working: { to, share: 0 } });
    const onStep = ({ share, soFar }: AnswerStep) => {
      // Steps come on a channel of their own and may come in after the answer.
      if (running !== to || !isStillAsked(to, store.getState(), answers.getState())) return;
      answers.setState({ working: { to, share } });
      if (soFar !== undefined) show(to, { answer: soFar, problems: [] }, false);
    };
    try {
      const answered = await mine.answer({ kind, asked, setup, camera, changes, ...beside }, onStep);
      if (answered && !stopped && isStillAsked(to, store.getState(), answers.getState()))
        show(to, answered, true);
    } catch (error) {
      // A desk that was put away has not failed.
      if (desk === mine && !stopped) {
        putAway();
        answers.setState({ failure: (error as Error).message });
      }
    } finally {
      running = null;
      answers.setState({ working: null });
    }
  };

  const work = latestWins(async () => {
    for (;;) {
      const state = answers.getState();
      const next = stopped || state.failure !== null ? null : nextAsking(store.getState(), state);
      if (!next) return;
      await ask(next);
    }
  });

  /** What is worked out for nobody ends at its next step; where there is none, the worker goes. */
  const leaveOffUnasked = () => {
    const left = running;
    if (!left || !desk || isStillAsked(left, store.getState(), answers.getState())) return;
    desk.leaveOff();
    setTimeout(() => {
      if (running !== left || isStillAsked(left, store.getState(), answers.getState())) return;
      putAway();
    }, patience_ms);
  };

  const onChange = () => {
    leaveOffUnasked();
    work();
  };
  const unsubscribeEditor = store.subscribe((now, before) => {
    if (
      now.scene !== before.scene ||
      now.camera !== before.camera ||
      now.setup !== before.setup ||
      now.gesture !== before.gesture
    )
      onChange();
  });
  const unsubscribeAnswers = answers.subscribe((now, before) => {
    if (now.wanted !== before.wanted || now.open !== before.open || now.asked !== before.asked) onChange();
  });

  return {
    callOff() {
      const off = running;
      if (!off) return;
      answers.setState(({ calledOff }) => ({
        calledOff: [...calledOff.filter((o) => !isSame(o, off)), off],
      }));
      putAway();
    },
    askAgain() {
      answers.setState({ calledOff: [], failure: null });
      work();
    },
    stop() {
      stopped = true;
      unsubscribeEditor();
      unsubscribeAnswers();
      putAway();
    },
  };
}
