import { solidAround } from '../../core/geometry/solid-around.ts';
import type { SceneFiles } from '../files/scene-files.ts';
import { LIBRARY } from '../library/library.ts';
import { type Problem, problemAt } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';
import { type Ground, groundOf } from '../stands/ground.ts';
import { standHeight } from '../stands/stand-height.ts';
import { type CompileMemo, compileScene, newCompileMemo } from './compile-scene.ts';

/** What is allowed but is most likely a slip: a mark, a lamp or a camera inside something solid, a lamp over its stand. */
export function sceneWarnings(
  document: SceneDocument,
  files: SceneFiles,
  memo: CompileMemo = newCompileMemo(),
): Problem[] {
  const model = compileScene(document, files, LIBRARY, memo);
  const warnings: Problem[] = [];
  const warn = (at: (string | number)[], found: string, expected: string) =>
    warnings.push(problemAt(document, at, { found, expected, severity: 'warning' }));

  for (const list of ['marks', 'lamps', 'cameras'] as const) {
    for (const [index, thing] of (document[list] ?? []).entries()) {
      const shape = solidAround(model.geometry, thing.position_m);
      if (shape < 0) continue;
      const owner = model.owners[model.parts[shape]!.owner]!;
      warn([list, index, 'position_m'], `a place inside ${owner.name}`, 'a place in the open');
    }
  }
  for (const [index, lamp] of (document.lamps ?? []).entries()) {
    if (!lamp.stand) continue;
    const ground = groundOf(model, lamp.position_m);
    const { height_m, maxHeight_m, tooHigh } = standHeight(lamp, ground.level_m);
    if (!tooHigh) continue;
    const found = `${metres(height_m)}, above its stand's ${maxHeight_m} m`;
    const expected = `a height that the stand reaches (measured from ${groundText(ground)})`;
    warn(['lamps', index, 'position_m'], found, expected);
  }
  return warnings;
}

function groundText({ level_m, on }: Ground): string {
  return on === null ? 'y = 0, as nothing is modelled below it' : `${on} at y = ${metres(level_m)}`;
}

function metres(length_m: number): string {
  return `${Number(length_m.toFixed(2))} m`;
}
