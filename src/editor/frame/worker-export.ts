import { proxy, type Remote, wrap } from 'comlink';
import { lifeOf } from '../worker/worker-life.ts';
import type { exportFrame, FrameExport } from './export-frame.ts';

/**
 * Exports in a worker of its own: the page stays quick, and goes on when its tab is hidden, where timers of the page are held
 * back. On the page itself where the browser has no graphics in workers. Rejects as `exportFrame` does.
 */
export async function exportInWorker(
  order: FrameExport,
  progress: (share: number) => void,
  signal: AbortSignal,
): Promise<Blob> {
  signal.throwIfAborted();
  const worker = new Worker(new URL('./export-worker.ts', import.meta.url), { type: 'module' });
  const remote: Remote<typeof exportFrame> = wrap<typeof exportFrame>(worker);
  const { whileAlive, end } = lifeOf(worker);
  // What the worker has on the card goes with it.
  signal.addEventListener('abort', end, { once: true });
  try {
    return await whileAlive(() => remote(order, proxy(progress)));
  } catch (error) {
    signal.throwIfAborted();
    if ((error as Error).name !== 'GraphicsUnable') throw error;
  } finally {
    signal.removeEventListener('abort', end);
    end();
  }
  const onThePage = await import('./export-frame.ts');
  return onThePage.exportFrame(order, progress, signal);
}
