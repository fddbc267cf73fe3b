import { proxy, type Remote, wrap } from 'comlink';
import type { ReadingDesk } from './reading-desk.ts';

/** The reading desk in its worker. A worker that dies answers nothing: every call fails then, instead of waiting. */
export interface WorkerDesk extends ReadingDesk {
  close(): void;
}

export function startWorkerDesk(): WorkerDesk {
  const worker = new Worker(new URL('./meter-worker.ts', import.meta.url), { type: 'module' });
  const remote: Remote<ReadingDesk> = wrap<ReadingDesk>(worker);
  let dead: Error | null = null;
  const death = new Promise<never>((_, reject) => {
    worker.addEventListener('error', (event) => {
      dead = new Error(event.message || 'the worker could not be started');
      reject(dead);
    });
  });
  death.catch(() => {});
  const orDeath = <T>(answer: () => Promise<T>): Promise<T> =>
    dead ? Promise.reject(dead) : Promise.race([answer(), death]);
  return {
    open: (text, beside) => orDeath(() => remote.open(text, beside)),
    read: (question, onReport) => orDeath(() => remote.read(question, onReport && proxy(onReport))),
    leaveOff: () => void remote.leaveOff(),
    close: () => worker.terminate(),
  };
}
