import { proxy, type Remote, wrap } from 'comlink';
import { lifeOf } from '../worker/worker-life.ts';
import type { SmallFrameDesk } from './small-frame-desk.ts';

/** The desk of small frames in its worker. A worker that dies answers nothing: every call fails then. */
export interface WorkerSmallFrameDesk extends SmallFrameDesk {
  close(): void;
}

export function startSmallFrameDesk(): WorkerSmallFrameDesk {
  const worker = new Worker(new URL('./small-frame-worker.ts', import.meta.url), { type: 'module' });
  const remote: Remote<SmallFrameDesk> = wrap<SmallFrameDesk>(worker);
  const { whileAlive, end } = lifeOf(worker);
  return {
    draw: (question, progress) => whileAlive(() => remote.draw(question, proxy(progress))),
    read: (question) => whileAlive(() => remote.read(question)),
    stop: () => void remote.stop(),
    close: end,
  };
}
