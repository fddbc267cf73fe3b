import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Page } from './page.tsx';
import { startSession } from './session.ts';
import { SessionProvider } from './store/use-editor.ts';
import './styles/night.css';
import './styles/day.css';
import './styles/layout.css';
import './styles/controls.css';
import './styles/readings.css';
import './styles/view.css';

const session = startSession();

createRoot(document.getElementById('page')!).render(
  <StrictMode>
    <SessionProvider value={session}>
      <Page />
    </SessionProvider>
  </StrictMode>,
);
