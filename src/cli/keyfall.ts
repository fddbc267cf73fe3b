#!/usr/bin/env node
import { main } from './main.ts';

// A reader that has seen enough, as in `keyfall meter SCENE | head`, is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

process.exitCode = await main(process.argv.slice(2));
