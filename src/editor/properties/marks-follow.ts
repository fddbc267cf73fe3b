import { add, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { withItsMarks } from '../../scene/building/figure-marks.ts';
import type { SceneDocument } from '../../scene/schema/document.ts';
import type { Figure } from '../../scene/schema/figure.ts';
import { kept } from '../plan/arrange/place-things.ts';
import { type Change, subjectOf } from './subject.ts';

/**
 * The changes with those of the marks that stand at figures which change their place: they go along as when a figure is dragged.
 * Marks that are changed themselves, or are held fast, stay out of it.
 */
export function withMarksFollowing(
  document: SceneDocument,
  changes: readonly Change[],
  isHeld: (mark: string) => boolean,
): readonly Change[] {
  const changed = new Set(changes.map(({ subject }) => subject.id));
  const following = new Map<string, Change>();
  for (const { subject, after } of changes) {
    if (subject.kind !== 'figures') continue;
    const way = subtract((after as Figure).position_m, (subject.thing as Figure).position_m);
    if (way.every((part) => part === 0)) continue;
    for (const id of withItsMarks(document, subject.id)) {
      const mark = subjectOf(document, id);
      if (mark?.kind !== 'marks' || changed.has(id) || isHeld(id)) continue;
      const { position_m } = mark.thing as { readonly position_m: Vec3 };
      following.set(id, { subject: mark, after: { ...mark.thing, position_m: kept(add(position_m, way)) } });
    }
  }
  return [...changes, ...following.values()];
}
