import { proxy } from 'comlink';
import type { ReadingDesk } from './reading-desk.ts';
import { startDesks } from './start-desks.ts';

/** The reading desk in its worker. A worker that dies answers nothing: every call fails then, instead of waiting. */
export interface WorkerDesk extends ReadingDesk {
  close(): void;
}

export function startWorkerDesk(): WorkerDesk {
  const { desks, whileAlive, end } = startDesks();
  return {
    open: (text, beside) => whileAlive(() => desks.reading.open(text, beside)),
    read: (question, onReport) => whileAlive(() => desks.reading.read(question, onReport && proxy(onReport))),
    leaveOff: () => void desks.reading.leaveOff(),
    close: end,
  };
}

/** The same, its worker started with the first question. */
export function workerDeskWhenAsked(): WorkerDesk {
  let desk: WorkerDesk | null = null;
  const started = () => {
    desk ??= startWorkerDesk();
    return desk;
  };
  return {
    open: (text, beside) => started().open(text, beside),
    read: (question, onReport) => started().read(question, onReport),
    leaveOff: () => desk?.leaveOff(),
    close: () => desk?.close(),
  };
}
