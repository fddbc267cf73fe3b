import { createStore } from 'zustand/vanilla';
import type { EditorStore } from './store/editor-store.ts';

/** Whether a newer build of the page is in the browser already and waits until no page of this one is open. */
export const newerBuild = createStore<{ readonly waits: boolean }>(() => ({ waits: false }));

/**
 * Lets the browser keep the whole built page for when there is no network, once the first numbers are complete and the machine is
 * free for it. Without it, or where the browser does not allow it, the page works as long as the network does.
 */
export function keepOffline(store: EditorStore): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const unsubscribe = store.subscribe(({ reading, readingFailure }) => {
    if (reading?.extent !== 'all' && readingFailure === null) return;
    unsubscribe();
    navigator.serviceWorker.register('./sw.js').then(watchForNewer, () => {});
  });
}

/** A build that comes while another one serves the page waits for it; the first of all does not. */
function watchForNewer(registration: ServiceWorkerRegistration): void {
  const look = () =>
    newerBuild.setState({ waits: registration.waiting !== null && registration.active !== null });
  registration.addEventListener('updatefound', () =>
    registration.installing?.addEventListener('statechange', look),
  );
  registration.installing?.addEventListener('statechange', look);
  look();
}
