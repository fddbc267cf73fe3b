/// <reference types="vitest/config" />
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** `vite build` makes the page, `vite build --mode cli` the command-line bundle that `bin` points at. */
export default defineConfig(({ mode }) => ({
  base: './',
  plugins: mode === 'cli' ? [] : [react()],
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
        },
      },
    ],
  },
}));
