import { createStore } from 'zustand/vanilla';
import type { EditorStore } from './store/editor-store.ts';

/** Whether a newer build of the page is in the browser already and waits until no page of this one is open. */
export const newerBuild = createStore<{ readonly waits: boolean }>(() => ({ waits: false }));

/** To fetch and keep every file takes the browser's own processes a second or two: nobody's hand should feel it. */
const HANDS_REST_ms = 3000;

/**
 * Lets the browser keep the whole built page for when there is no network, once the first numbers are complete and nothing has
 * happened for a while. Without it, or where the browser does not allow it, the page works as long as the network does.
 */
export function keepOffline(store: EditorStore): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const unsubscribe = store.subscribe(({ reading, readingFailure, gesture }) => {
    clearTimeout(timer);
    if (gesture || (reading?.extent !== 'all' && readingFailure === null)) return;
    timer = setTimeout(() => {
      unsubscribe();
      navigator.serviceWorker.register('./sw.js').then(watchForNewer, () => {});
    }, HANDS_REST_ms);
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
