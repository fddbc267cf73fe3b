import { proxy, type Remote, wrap } from 'comlink';
import type { ReadingDesk } from './reading-desk.ts';
import { lifeOf } from './worker-life.ts';

/** The reading desk in its worker. A worker that dies answers nothing: every call fails then, instead of waiting. */
export interface WorkerDesk extends ReadingDesk {
  close(): void;
}

export function startWorkerDesk(): WorkerDesk {
  const worker = new Worker(new URL('./meter-worker.ts', import.meta.url), { type: 'module' });
  const remote: Remote<ReadingDesk> = wrap<ReadingDesk>(worker);
  const { whileAlive, end } = lifeOf(worker);
  return {
    open: (text, beside) => whileAlive(() => remote.open(text, beside)),
    read: (question, onReport) => whileAlive(() => remote.read(question, onReport && proxy(onReport))),
    leaveOff: () => void remote.leaveOff(),
    close: end,
  };
}
