import { execFileSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { findBrowser } from './find-browser.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the built page is served. */
    pageUrl: string;
    browserPath: string;
  }
}

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const PAGE = join(ROOT, 'dist', 'page', 'index.html');
const MADE_FROM = ['index.html', 'vite.config.ts', 'package.json', 'src', 'assets', 'scenes'];

/** Before all browser tests: a browser, and the built page on a free port. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  project.provide('browserPath', findBrowser());
  const { url, close } = await servePage();
  project.provide('pageUrl', url);
  return close;
}

/** The page as it stands, built and served on a free port. */
export async function servePage(): Promise<{ readonly url: string; readonly close: () => Promise<void> }> {
  if (outOfDate()) buildPage();
  const server = await preview({
    root: ROOT,
    logLevel: 'warn',
    preview: { port: 0, strictPort: false, host: '127.0.0.1' },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('the page server has no port');
  return { url: `http://127.0.0.1:${address.port}/`, close: () => server.close() };
}

/** In a process of its own: in this one the page would be built for tests, not as it is delivered. */
function buildPage(): void {
  const env = { ...process.env };
  for (const name of Object.keys(env)) if (name === 'NODE_ENV' || name.startsWith('VITE')) delete env[name];
  execFileSync(
    process.execPath,
    [join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js'), 'build', '--logLevel', 'warn'],
    {
      cwd: ROOT,
      env,
      stdio: ['ignore', 'ignore', 'inherit'],
    },
  );
}

function outOfDate(): boolean {
  const built_ms = statSync(PAGE, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return MADE_FROM.some((path) => newest_ms(join(ROOT, path)) > built_ms);
}

function newest_ms(path: string): number {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path).reduce((newest, entry) => Math.max(newest, newest_ms(join(path, entry))), 0);
}
