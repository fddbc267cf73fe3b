import { startWorkerDesk } from './worker/worker-desk.ts';

// The worker reads its script while the page reads its own.
const quick = startWorkerDesk();
const { startPage } = await import('./start-page.tsx');
startPage(quick);
