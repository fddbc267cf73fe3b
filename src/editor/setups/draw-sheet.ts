import { type Remote, wrap } from 'comlink';
import { lifeOf } from '../worker/worker-life.ts';
import type { ContactSheet, sheetFile } from './contact-sheet.ts';

/** The sheet as a PNG file, drawn and packed in a worker of its own. Rejects where that cannot be. */
export async function drawSheet(sheet: ContactSheet, texts: Readonly<Record<string, string>>): Promise<Blob> {
  const worker = new Worker(new URL('./sheet-worker.ts', import.meta.url), { type: 'module' });
  const remote: Remote<{ sheetFile: typeof sheetFile }> = wrap(worker);
  const { whileAlive, end } = lifeOf(worker);
  try {
    return await whileAlive(() => remote.sheetFile(sheet, texts));
  } finally {
    end();
  }
}
