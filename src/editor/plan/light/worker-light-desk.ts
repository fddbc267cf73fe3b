import { proxy, wrap } from 'comlink';
import type { LightDesk } from './light-desk.ts';

/** The light desk in its worker. A worker that dies answers nothing: every call fails then, instead of waiting. */
export interface WorkerLightDesk extends LightDesk {
  close(): void;
}

export function startLightDesk(): WorkerLightDesk {
  const worker = new Worker(new URL('./light-worker.ts', import.meta.url), { type: 'module' });
  const remote = wrap<LightDesk>(worker);
  const death = new Promise<never>((_, reject) => {
    worker.addEventListener('error', (event) =>
      reject(new Error(event.message || 'the worker could not be started')),
    );
  });
  death.catch(() => {});
  return {
    light: (question, onLight) => Promise.race([remote.light(question, proxy(onLight)), death]),
    clear: (question, onShare) => Promise.race([remote.clear(question, proxy(onShare)), death]),
    leaveOff: (what) => void remote.leaveOff(what),
    close: () => worker.terminate(),
  };
}
