import { withItsMarks } from '../../../scene/building/figure-marks.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { type PlanThing, thingNamed } from './plan-things.ts';

/** The marks at the figures among these things, which go along when those are moved; not those that are among them already. */
export function marksAlong(document: SceneDocument, things: readonly PlanThing[]): readonly PlanThing[] {
  const among = new Set(things.map(({ id }) => id));
  const at = things
    .filter(({ kind }) => kind === 'figures')
    .flatMap(({ id }) => withItsMarks(document, id))
    .filter((id) => !among.has(id));
  return [...new Set(at)].map((id) => thingNamed(document, id)!);
}
