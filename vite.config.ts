/// <reference types="vitest/config" />
import react from '@vitejs/plugin-react';
import { defineConfig, type HtmlTagDescriptor, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

/**
 * Everything that was built is kept in the browser after the first visit. A newer version waits until no page of the old one is
 * open any more: nothing is ever taken from under anybody's work.
 */
const offline = VitePWA({
  injectRegister: false,
  manifest: false,
  workbox: {
    globPatterns: ['**/*.{html,js,css}'],
    maximumFileSizeToCacheInBytes: 8e6,
    dontCacheBustURLsMatching: /assets\//,
    cleanupOutdatedCaches: true,
    clientsClaim: true,
    skipWaiting: false,
    navigateFallback: 'index.html',
    navigateFallbackAllowlist: [/\/(index\.html)?(\?.*)?$/],
    sourcemap: false,
  },
});

/**
 * Scripts, styles and workers of its own and nothing else: the page fetches nothing from anywhere, sends nothing, and runs no text
 * that came with a file. Styles in attributes and elements are allowed, for the parts of others that place themselves so.
 */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "connect-src 'self' data: blob:",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/**
 * What the head of the built page says beside what stands in index.html: the policy, and what the entry will ask for, so that it
 * is fetched and read while the entry starts the first worker.
 */
function pageHead(): Plugin {
  return {
    name: 'page-head',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler(_html, { bundle = {}, chunk: entry }) {
        const chunks = new Set<string>();
        const styles = new Set<string>();
        const gather = (fileName: string) => {
          const chunk = bundle[fileName];
          if (chunk?.type !== 'chunk' || chunks.has(fileName) || entry?.imports.includes(fileName)) return;
          chunks.add(fileName);
          for (const style of chunk.viteMetadata?.importedCss ?? []) styles.add(style);
          chunk.imports.forEach(gather);
        };
        entry?.dynamicImports.forEach(gather);
        const link = (rel: string, file: string): HtmlTagDescriptor => ({
          tag: 'link',
          attrs: { rel, crossorigin: true, href: `./${file}` },
          injectTo: 'head',
        });
        return [
          {
            tag: 'meta',
            attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
            injectTo: 'head-prepend',
          },
          ...[...chunks].map((file) => link('modulepreload', file)),
          ...[...styles].map((file) => link('stylesheet', file)),
        ];
      },
    },
  };
}

/** `vite build` makes the page, `vite build --mode cli` the command-line bundle that `bin` points at. */
export default defineConfig(({ mode }) => ({
  base: './',
  plugins: mode === 'cli' ? [] : [react(), pageHead(), offline],
  publicDir: false,
  build:
    mode === 'cli'
      ? {
          ssr: true,
          rolldownOptions: { input: ['src/cli/keyfall.ts', 'src/cli/frame/frame-worker.ts'] },
          outDir: 'dist/cli',
          target: 'node20',
          emptyOutDir: true,
        }
      : { outDir: 'dist/page', target: 'es2022', emptyOutDir: true },
  preview: { port: 4173, host: 'localhost' },
  worker: { format: 'es' },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', 'tests/parity/**'],
          testTimeout: 30_000,
          maxWorkers: '100%',
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts', 'tests/parity/**/*.test.ts'],
          globalSetup: ['tests/browser/support/page-server.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
}));
