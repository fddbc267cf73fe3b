import { wrap } from 'comlink';
import { useEffect, useState } from 'react';
import type { PhotometricFileBrought } from './documents-state.ts';
import type { Looked } from './photometry-summary.ts';
import type { PhotometryWorker } from './photometry-worker.ts';

/** What a photometric file says, read in a worker that lives as long as the question; null until it has answered. */
export function usePhotometry(file: PhotometricFileBrought, lampSet: number): Looked | null {
  const [answer, setAnswer] = useState<{ file: PhotometricFileBrought; lampSet: number; looked: Looked }>();

  useEffect(() => {
    const worker = new Worker(new URL('./photometry-worker.ts', import.meta.url), { type: 'module' });
    const tell = (looked: Looked) => setAnswer({ file, lampSet, looked });
    const fail = (message: string) =>
      tell({
        fault: { line: 1, found: message, expected: 'a file that this page can read', mend: 'Try it again.' },
      });
    worker.addEventListener('error', ({ message }) => fail(message || 'no answer from the reader'));
    wrap<PhotometryWorker>(worker)
      .look(file.name, file.bytes, lampSet)
      .then(tell, (error: Error) => fail(error.message));
    return () => worker.terminate();
  }, [file, lampSet]);

  return answer?.file === file && answer.lampSet === lampSet ? answer.looked : null;
}
