import type { EditorStore } from './store/editor-store.ts';

/**
 * Lets the browser keep the whole built page for when there is no network, once the first numbers are complete and the machine is
 * free for it. Without it, or where the browser does not allow it, the page works as long as the network does.
 */
export function keepOffline(store: EditorStore): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const unsubscribe = store.subscribe(({ reading, readingFailure }) => {
    if (reading?.extent !== 'all' && readingFailure === null) return;
    unsubscribe();
    navigator.serviceWorker.register('./sw.js').catch(() => {});
  });
}
