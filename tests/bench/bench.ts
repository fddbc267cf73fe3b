/**
 * `npm run bench`: how fast, how large. Figures of one machine mean little; the ratios are what to compare. Nothing here
 * passes or fails.
 */
import { cpus } from 'node:os';
import { benchAllLight } from './all-light.ts';
import { benchAnswers } from './answers.ts';
import { benchBounces } from './bounces.ts';
import { benchDirect } from './direct.ts';
import { benchFiles } from './files.ts';
import { benchRays } from './rays.ts';
import { printTable } from './report.ts';

console.log(`${cpus()[0]?.model ?? 'unknown CPU'}, ${cpus().length} cores, Node ${process.version}\n`);
printTable('Direct light: what a drag costs', benchDirect());
printTable('All light: what a reading at rest costs', benchAllLight());
printTable('Bounces: a closed room, by what its walls reflect', benchBounces());
printTable('Other answers for the demo', benchAnswers());
printTable('Rays, one thread: any-hit through mixed shapes', benchRays());
printTable('Files', benchFiles());
