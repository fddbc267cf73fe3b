import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { EditorStore } from '../../store/editor-store.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { planThings } from '../arrange/plan-things.ts';
import { cornersOf } from '../hands/body-size.ts';
import { aimOf } from '../hands/handles.ts';
import { planStoreOf } from '../plan-state.ts';
import { type Flat, flat, type Projection } from './projection.ts';
import { boundsOf, fitted } from './viewport.ts';

/** A body that is longer is a ground, or a way: what matters of it lies where other things are. */
const LONGEST_m = 45;

/**
 * Lamps, marks, figures and cameras as large as they go. Bodies may reach far beyond them, and count only while there is
 * nothing to light or to read yet: then the set is being built.
 */
export function fitAll(editor: EditorStore): void {
  const document = documentShown(editor.getState());
  if (!document) return;
  const things = planThings(document);
  const planned = things.filter(({ kind }) => ['lamps', 'marks', 'figures', 'cameras'].includes(kind));
  if (planned.some(({ kind }) => kind !== 'cameras')) {
    showWhole(
      editor,
      document,
      planned.map(({ id }) => id),
      false,
    );
    return;
  }
  const { projection } = planStoreOf(editor).getState();
  const set = things.filter(
    ({ id, kind }) => kind === 'cameras' || longest_m(cornersOf(document, id, projection)) <= LONGEST_m,
  );
  showWhole(
    editor,
    document,
    (set.length > 0 ? set : things).map(({ id }) => id),
    true,
  );
}

function longest_m(corners: readonly Flat[]): number {
  const bounds = boundsOf(corners);
  if (!bounds) return 0;
  return Math.max(bounds.high_m[0] - bounds.low_m[0], bounds.high_m[1] - bounds.low_m[1]);
}

/** What is chosen, with what it is aimed at. */
export function fitChosen(editor: EditorStore): void {
  const document = documentShown(editor.getState());
  if (document) showWhole(editor, document, editor.getState().chosen, true);
}

function showWhole(
  editor: EditorStore,
  document: SceneDocument,
  ids: readonly string[],
  whole: boolean,
): void {
  const plan = planStoreOf(editor);
  const { projection, size } = plan.getState();
  if (size.width_px === 0) return;
  const wanted = new Set(ids);
  const points = planThings(document)
    .filter(({ id }) => wanted.has(id))
    .flatMap(({ id, position_m }) => [
      flat(position_m, projection),
      ...(whole ? reach(document, id, projection) : []),
    ]);
  const bounds = boundsOf(points) ?? { low_m: [-5, -5], high_m: [5, 5] };
  plan.setState(({ views }) => ({ views: { ...views, [projection]: fitted(bounds, size) } }));
}

function reach(document: SceneDocument, id: string, projection: Projection): readonly Flat[] {
  const aim = aimOf(document, id);
  return [...cornersOf(document, id, projection), ...(aim ? [flat(aim.point_m, projection)] : [])];
}
