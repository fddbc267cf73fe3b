import { proxy } from 'comlink';
import { startDesks } from '../worker/start-desks.ts';
import type { FrameDesk } from './frame-desk.ts';

/** The frame desk in its worker. A worker that dies answers nothing: every call fails then, instead of waiting. */
export interface WorkerFrameDesk extends FrameDesk {
  close(): void;
}

let begun: WorkerFrameDesk | null = null;

/** Starts a worker before anything is asked, so that it has read its script by then: the next desk is that one. */
export function beginFrameDesk(): void {
  begun ??= newWorkerFrameDesk();
}

export function startFrameDesk(): WorkerFrameDesk {
  const desk = begun ?? newWorkerFrameDesk();
  begun = null;
  return desk;
}

function newWorkerFrameDesk(): WorkerFrameDesk {
  const { desks, whileAlive, end } = startDesks();
  return {
    look: (question) => whileAlive(() => desks.frame.look(question)),
    spot: (u, v, error_stops) => whileAlive(() => desks.frame.spot(u, v, error_stops)),
    draw: (width_px, height_px, samples, onStep) =>
      whileAlive(() => desks.frame.draw(width_px, height_px, samples, proxy(onStep))),
    stop: () => void desks.frame.stop(),
    close: end,
  };
}
