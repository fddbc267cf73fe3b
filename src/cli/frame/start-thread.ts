import { Worker, type WorkerOptions } from 'node:worker_threads';

/**
 * Starts the frame worker that stands beside this file: JavaScript in the bundle; in a checkout TypeScript, which a thread
 * cannot load by itself, so it is given the loader that runs the command line there.
 */
export function startFrameThread(options: WorkerOptions): Worker {
  if (!import.meta.url.endsWith('.ts'))
    return new Worker(new URL('./frame-worker.js', import.meta.url), options);
  const loader = JSON.stringify(import.meta.resolve('tsx/esm/api'));
  const script = JSON.stringify(new URL('./frame-worker.ts', import.meta.url).href);
  const load = `import(${loader}).then(({ register }) => { register(); return import(${script}); })`;
  return new Worker(load, { ...options, eval: true });
}
