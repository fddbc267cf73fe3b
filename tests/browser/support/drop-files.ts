import type { Page } from 'playwright-core';

export interface DroppedFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** Drops files on the page as a person would from a folder. */
export async function dropFiles(page: Page, files: readonly DroppedFile[]): Promise<void> {
  const carried = await page.evaluateHandle(
    (given) => {
      const transfer = new DataTransfer();
      for (const { name, base64 } of given) {
        const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
        transfer.items.add(new File([bytes], name));
      }
      return transfer;
    },
    files.map(({ name, content }) => ({ name, base64: Buffer.from(content).toString('base64') })),
  );
  const target = page.getByTestId('page');
  await target.dispatchEvent('dragover', { dataTransfer: carried });
  await target.dispatchEvent('drop', { dataTransfer: carried });
}
