import { readFileSync } from 'node:fs';
import { compileScene } from '../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../src/scene/file/open-scene.ts';
import type { SceneFiles } from '../../src/scene/files/scene-files.ts';
import { meterScene } from '../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { largeScene } from './large-scene.ts';
import { ms, type Row, timed } from './report.ts';

const NO_FILES: SceneFiles = { photometry: new Map(), meshes: new Map() };

/** What a reading of all light costs: bounce, thrown light, panes and haze, to ±0.05 stop. */
export function benchAllLight(): Row[] {
  const scene = (name: string) =>
    openScene(readFileSync(new URL(`../../scenes/${name}.json`, import.meta.url), 'utf8')).document!;
  const demo = scene('night-quay');
  const { haze: _, ...clear } = demo;
  return [
    metered('demo, 7 marks, ±0.05 stop', demo),
    metered('demo, ±0.1 stop', demo, 0.1),
    metered('demo without haze', clear),
    ...['loading-dock', 'apron-flank', 'shopfront-rain', 'test-room'].map((name) =>
      metered(name, scene(name)),
    ),
    ...[1, 4, 16, 64].map((lamps) =>
      metered(`${lamps} lamps, 100 solids, 4 marks`, largeScene(lamps, 100, 4)),
    ),
    ...[10, 100, 1000].map((solids) =>
      metered(`4 lamps, ${solids} solids, 4 marks`, largeScene(4, solids, 4)),
    ),
  ];
}

function metered(what: string, document: SceneDocument, error_stops = 0.05): Row {
  const model = compileScene(document, NO_FILES);
  const { median_ms, worst_ms } = timed(3, () => {
    meterScene(document, model, { error_stops, light: 'all' });
  });
  return { what, median: ms(median_ms), worst: ms(worst_ms) };
}
