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
import { benchPage } from './page.ts';
import { benchAgainstPathTracer, benchPreview } from './preview.ts';
import { benchRays } from './rays.ts';
import { printTable } from './report.ts';

console.log(`${cpus()[0]?.model ?? 'unknown CPU'}, ${cpus().length} cores, Node ${process.version}\n`);
printTable('Direct light: what a drag costs', benchDirect());
printTable('All light: what a reading at rest costs', benchAllLight());
printTable('Bounces: a closed room, by what its walls reflect', benchBounces());
printTable('Other answers for the demo', benchAnswers());
printTable('Rays, one thread: any-hit through mixed shapes', benchRays());
printTable('Files', benchFiles());

await benchPage(printTable);

// Last, for it takes minutes where the browser has no graphics card.
printTable('The frame in a browser, on the graphics that it has', await benchPreview());
printTable(
  'Demo, surfaces and lamps alone, 320 × 180: against a general-purpose path tracer (three-gpu-pathtracer)',
  await benchAgainstPathTracer(),
);
console.log(
  'Alike: shapes (as triangles there), base colours, coats and metals as its standard material has them, peaks, sizes and field\n' +
    'angles of lamps, the noise that is measured. Not alike: beams are its spot lights with soft edges, lamp faces are not seen,\n' +
    'metals have no n and k, its paths end after ten bounces. Panes, haze and sky are left out of both.',
);
