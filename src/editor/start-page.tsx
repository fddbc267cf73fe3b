import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { beginFrameDesk } from './frame/worker-frame-desk.ts';
import { keepOffline } from './offline.ts';
import { Page } from './page.tsx';
import { startSession } from './session.ts';
import { SessionProvider } from './store/use-editor.ts';
import type { WorkerDesk } from './worker/worker-desk.ts';
import './styles/night.css';
import './styles/day.css';
import './styles/layout.css';
import './styles/controls.css';
import './styles/readings.css';
import './styles/view.css';

/** Puts the page up. `quick`: where the first numbers are asked for. */
export function startPage(quick: WorkerDesk): void {
  const session = startSession(quick);
  beginFrameDesk();
  createRoot(document.getElementById('page')!).render(
    <StrictMode>
      <SessionProvider value={session}>
        <Page />
      </SessionProvider>
    </StrictMode>,
  );
  keepOffline(session.store);
}
