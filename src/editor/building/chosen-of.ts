import type { Figure } from '../../scene/schema/figure.ts';
import type { VehicleSolid } from '../../scene/schema/solid.ts';
import type { EditorState } from '../store/editor-state.ts';
import { documentShown } from '../store/shown-scene.ts';

/** The figure that was chosen last. */
export function figureChosen(state: EditorState): Figure | undefined {
  return documentShown(state)?.figures?.findLast(({ id }) => state.chosen.includes(id));
}

/** The vehicle that was chosen last. */
export function vehicleChosen(state: EditorState): VehicleSolid | undefined {
  return documentShown(state)?.solids?.findLast(
    (solid): solid is VehicleSolid => solid.shape === 'vehicle' && state.chosen.includes(solid.id),
  );
}
