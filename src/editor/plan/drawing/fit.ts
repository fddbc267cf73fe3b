import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { EditorStore } from '../../store/editor-store.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { planThings } from '../arrange/plan-things.ts';
import { cornersOf } from '../hands/body-size.ts';
import { aimOf } from '../hands/handles.ts';
import { planStoreOf } from '../plan-state.ts';
import { type Flat, flat, type Projection } from './projection.ts';
import { boundsOf, fitted } from './viewport.ts';

/** Lamps, marks, figures and cameras as large as they go; bodies may reach far beyond, and count only where there is nothing else. */
export function fitAll(editor: EditorStore): void {
  const document = documentShown(editor.getState());
  if (!document) return;
  const things = planThings(document);
  const planned = things.filter(({ kind }) => ['lamps', 'marks', 'figures', 'cameras'].includes(kind));
  showWhole(
    editor,
    document,
    (planned.length > 0 ? planned : things).map(({ id }) => id),
    planned.length === 0,
  );
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
