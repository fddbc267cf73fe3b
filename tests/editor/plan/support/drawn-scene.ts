import { onScreen } from '../../../../src/editor/plan/drawing/viewport.ts';
import { planStoreOf } from '../../../../src/editor/plan/plan-state.ts';
import { createEditorStore } from '../../../../src/editor/store/editor-store.ts';
import type { SceneDocument } from '../../../../src/scene/schema/document.ts';

/** A scene in the store and its plan on a sheet of 800 × 600 pixels, 50 to the metre, the datum in the middle. */
export function drawnScene(document: SceneDocument) {
  const editor = createEditorStore();
  const plan = planStoreOf(editor);
  editor.setState({ scene: { document, beside: new Map() }, openings: 1 });
  editor.temporal.getState().clear();
  const view = { centre_m: [0, 0] as const, scale_px_m: 50 };
  plan.setState({
    size: { width_px: 800, height_px: 600 },
    views: { plan: view, 'along-x': view, 'along-z': view },
  });
  return {
    editor,
    plan,
    at: (u: number, v: number) =>
      onScreen(plan.getState().views[plan.getState().projection]!, plan.getState().size, [u, v]),
    scene: () => editor.getState().scene!.document,
    stepsBack: () => editor.temporal.getState().pastStates.length,
  };
}
