import { type Remote, wrap } from 'comlink';
import type { Desks } from './desks-worker.ts';
import { lifeOf, type WorkerLife } from './worker-life.ts';

/** A worker at whose desks the page asks. */
export function startDesks(): WorkerLife & { readonly desks: Remote<Desks> } {
  const worker = new Worker(new URL('./desks-worker.ts', import.meta.url), { type: 'module' });
  return { desks: wrap<Desks>(worker), ...lifeOf(worker) };
}
