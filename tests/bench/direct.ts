import { readFileSync } from 'node:fs';
import { compileScene, newCompileMemo } from '../../src/scene/compile/compile-scene.ts';
import { openScene } from '../../src/scene/file/open-scene.ts';
import type { SceneFiles } from '../../src/scene/files/scene-files.ts';
import { LIBRARY } from '../../src/scene/library/library.ts';
import { meterScene } from '../../src/scene/meter/meter-scene.ts';
import type { SceneDocument } from '../../src/scene/schema/document.ts';
import { largeScene } from './large-scene.ts';
import { ms, type Row, timed } from './report.ts';

const NO_FILES: SceneFiles = { photometry: new Map(), meshes: new Map() };
const DRAG_ERROR_STOPS = 0.1;

export function benchDirect(): Row[] {
  const demo = openScene(readFileSync(new URL('../../scenes/night-quay.json', import.meta.url), 'utf8'))
    .document!;
  const rows = [
    drag('demo, while dragging a lamp (±0.1 stop asked)', demo, DRAG_ERROR_STOPS),
    drag('demo, at rest (±0.02 stop asked)', demo, 0.02),
    cold('demo, first call, everything built', demo),
    drag('64 lamps, 2 000 solids, 200 marks, dragging', largeScene(64, 2000, 200), DRAG_ERROR_STOPS, 3),
    drag('64 lamps, 2 000 solids, 20 marks, dragging', largeScene(64, 2000, 20), DRAG_ERROR_STOPS, 3),
    drag('8 lamps, 2 000 solids, 200 marks, dragging', largeScene(8, 2000, 200), DRAG_ERROR_STOPS, 3),
    drag('8 lamps, 200 solids, 200 marks, dragging', largeScene(8, 200, 200), DRAG_ERROR_STOPS, 3),
  ];
  const peak_MB = process.resourceUsage().maxRSS / 1e3;
  return [
    ...rows,
    { what: 'memory of the whole process, at most', median: `${peak_MB.toFixed(0)} MB`, worst: '' },
  ];
}

/** Moves a lamp a little each time, compiles with the memo and reads all marks: what the worker does in a drag. */
function drag(what: string, document: SceneDocument, error_stops: number, repeats = 20): Row {
  const memo = newCompileMemo();
  let x = 0;
  const { median_ms, worst_ms } = timed(repeats, () => {
    x += 0.01;
    const [first, ...others] = document.lamps!;
    const [px, py, pz] = first!.position_m;
    const moved = {
      ...document,
      lamps: [{ ...first!, position_m: [px + x, py, pz] as [number, number, number] }, ...others],
    };
    meterScene(moved, compileScene(moved, NO_FILES, LIBRARY, memo), { error_stops });
  });
  return { what, median: ms(median_ms), worst: ms(worst_ms) };
}

function cold(what: string, document: SceneDocument): Row {
  const { median_ms, worst_ms } = timed(10, () => {
    meterScene(document, compileScene(document, NO_FILES), { error_stops: 0.02 });
  });
  return { what, median: ms(median_ms), worst: ms(worst_ms) };
}
