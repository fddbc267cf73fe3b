import { add, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { tapedBy_m } from '../../paperwork/cure-words.ts';
import type { Command } from '../../scene/commands/command.ts';
import type { Cure } from '../../scene/mirror/cures/cures.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';

/**
 * The edit that tries a cure: the lamp or the camera moved by as much as the words of the cure say, to the millimetre.
 * Null where the scene no longer has the thing.
 */
export function cureCommand(
  document: SceneDocument,
  { lamp, camera }: { readonly lamp: string; readonly camera: string },
  cure: Cure,
): Command | null {
  const ofCamera = cure.change.startsWith('camera');
  const things = ofCamera ? document.cameras : document.lamps;
  const thing = things?.find(({ id }) => id === (ofCamera ? camera : lamp));
  if (!thing) return null;
  const from_m = thing.position_m as Vec3;
  const to_m = add(from_m, scale(subtract(cure.to_m, from_m), tapedBy_m(cure) / cure.by_m));
  return {
    do: 'change',
    id: thing.id,
    patch: { position_m: to_m.map((v) => Number(v.toFixed(3))) },
  };
}
