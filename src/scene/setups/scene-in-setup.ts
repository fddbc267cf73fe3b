import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { SceneDocument } from '../schema/document.ts';
import { applySetup } from './apply-setup.ts';

/** The document as a setup has it, or the base when none is asked for. Throws SceneError for an unknown setup. */
export function sceneInSetup(document: SceneDocument, id: string | undefined): SceneDocument {
  if (id === undefined) return document;
  const setups = document.setups ?? [];
  const setup = setups.find((s) => s.id === id);
  if (setup) return applySetup(document, setup);
  const nearest = nearestName(
    id,
    setups.map((s) => s.id),
  );
  const expected =
    setups.length > 0 ? `one of ${setups.map((s) => s.id).join(', ')}` : 'none: the scene has no setups';
  throw new SceneError([
    problemAt(document, ['setups'], { found: `no setup ${shown(id)}`, expected, nearest }),
  ]);
}
