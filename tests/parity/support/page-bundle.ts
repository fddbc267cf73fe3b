import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';

/** One script of a module and all that it imports, to be put in a page that has nothing else. */
export async function bundledForPage(entry: string): Promise<string> {
  const built = await build({
    configFile: false,
    root: fileURLToPath(new URL('../../..', import.meta.url)),
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      target: 'es2022',
      lib: { entry, formats: ['iife'], name: 'parity' },
    },
  });
  const output = [built].flat().flatMap((part) => ('output' in part ? part.output : []));
  const script = output.find((part) => part.type === 'chunk');
  if (!script) throw new Error(`Bundling ${entry} made no script.`);
  return script.code;
}

/** A page with nothing in it but the script of `entry`; what it complains about fails the test that listens. */
export async function openBarePage(
  browser: Browser,
  entry: string,
): Promise<{ readonly page: Page; readonly complaints: string[] }> {
  const script = await bundledForPage(entry);
  const page = await browser.newPage({ viewport: { width: 640, height: 360 } });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.setContent('<!doctype html><title>parity</title>');
  await page.addScriptTag({ content: script });
  return { page, complaints };
}
