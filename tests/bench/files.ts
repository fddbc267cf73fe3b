import { readFileSync } from 'node:fs';
import { readPhotometricFile } from '../../src/core/photometry/photometric-file.ts';
import { openScene } from '../../src/scene/file/open-scene.ts';
import { saveScene } from '../../src/scene/file/save-scene.ts';
import { ms, type Row, timed } from './report.ts';

export function benchFiles(): Row[] {
  const text = lm63OfAbout(1_000_000);
  const demo = readFileSync(new URL('../../scenes/night-quay.json', import.meta.url), 'utf8');
  const document = openScene(demo).document!;
  return [
    row(`read an LM-63 file of ${(text.length / 1e6).toFixed(1)} MB`, 10, () =>
      readPhotometricFile('large.ies', text),
    ),
    row(`open and check the demo, ${(demo.length / 1e3).toFixed(0)} kB`, 20, () => openScene(demo)),
    row('save the demo', 20, () => saveScene(document)),
  ];
}

function row(what: string, repeats: number, call: () => void): Row {
  const { median_ms, worst_ms } = timed(repeats, call);
  return { what, median: ms(median_ms), worst: ms(worst_ms) };
}

function lm63OfAbout(bytes: number): string {
  const vertical = Array.from({ length: 181 }, (_, i) => i / 2);
  const planes = Math.round(bytes / (181 * 8.5));
  const horizontal = Array.from({ length: planes + 1 }, (_, i) => ((360 * i) / planes).toFixed(3));
  const plane = vertical.map((v) => (1000 * Math.cos((v * Math.PI) / 180)).toFixed(3)).join(' ');
  return [
    'IESNA:LM-63-2002',
    '[TEST] made up',
    'TILT=NONE',
    `1 -1 1 181 ${planes + 1} 1 2 0 0 0`,
    '1 1 100',
    vertical.join(' '),
    horizontal.join(' '),
    ...horizontal.map(() => plane),
    '',
  ].join('\n');
}
