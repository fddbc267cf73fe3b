import { proxy, type Remote, wrap } from 'comlink';
import type { AnswerDesk } from './answer-desk.ts';
import { lifeOf } from './worker-life.ts';

/** The answer desk in its worker. A worker that dies answers nothing: every call fails then, instead of waiting. */
export interface WorkerAnswerDesk extends AnswerDesk {
  close(): void;
}

export function startAnswerDesk(): WorkerAnswerDesk {
  const worker = new Worker(new URL('./answer-worker.ts', import.meta.url), { type: 'module' });
  const remote: Remote<AnswerDesk> = wrap<AnswerDesk>(worker);
  const { whileAlive, end } = lifeOf(worker);
  // Which kind is asked is not known to the types of a remote call; the desk's own types hold on both sides of it.
  const ask = remote.answer as unknown as AnswerDesk['answer'];
  return {
    answer: (question, onStep) => whileAlive(() => ask(question, onStep && proxy(onStep))),
    leaveOff: () => void remote.leaveOff(),
    close: end,
  };
}
