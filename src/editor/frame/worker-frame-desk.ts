import { proxy, type Remote, wrap } from 'comlink';
import { lifeOf } from '../worker/worker-life.ts';
import type { FrameDesk } from './frame-desk.ts';

/** The frame desk in its worker. A worker that dies answers nothing: every call fails then, instead of waiting. */
export interface WorkerFrameDesk extends FrameDesk {
  close(): void;
}

export function startFrameDesk(): WorkerFrameDesk {
  const worker = new Worker(new URL('./frame-worker.ts', import.meta.url), { type: 'module' });
  const remote: Remote<FrameDesk> = wrap<FrameDesk>(worker);
  const { whileAlive, end } = lifeOf(worker);
  return {
    look: (question) => whileAlive(() => remote.look(question)),
    spot: (u, v, error_stops) => whileAlive(() => remote.spot(u, v, error_stops)),
    draw: (width_px, height_px, samples, onStep) =>
      whileAlive(() => remote.draw(width_px, height_px, samples, proxy(onStep))),
    stop: () => void remote.stop(),
    close: end,
  };
}
