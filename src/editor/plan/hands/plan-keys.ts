import type { Vec3 } from '../../../core/math/vec3.ts';
import { METRES_PER_FOOT } from '../../../core/units/length.ts';
import { placingNow, stopPlacing } from '../../building/placing.ts';
import { choose, chooseToo } from '../../store/choose.ts';
import type { EditorStore } from '../../store/editor-store.ts';
import { beginGesture, edit, endGesture } from '../../store/edits.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { marksAlong } from '../arrange/marks-along.ts';
import { placeThings } from '../arrange/place-things.ts';
import { planThings, thingNamed } from '../arrange/plan-things.ts';
import { atPlace, type Flat, flat } from '../drawing/projection.ts';
import { planActions } from '../plan-actions.ts';
import { isHidden, isLocked, type PlanStore } from '../plan-state.ts';
import { stepFor } from './drags.ts';

/** A key as it was pressed on the drawing. */
export interface PlanKey {
  readonly key: string;
  readonly shift: boolean;
  readonly mod: boolean;
  readonly alt: boolean;
}

const NUDGE_m = { metric: 0.05, imperial: (2 * METRES_PER_FOOT) / 12 } as const;
const MORE = 10;
const WAYS: Readonly<Record<string, Flat>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** What keys do while the drawing has the focus. */
export function newPlanKeys(editor: EditorStore, plan: PlanStore) {
  let leaving = false;
  let nudging = false;

  const nudge = (way: Flat, raise: number, more: boolean): boolean => {
    const document = documentShown(editor.getState());
    const state = plan.getState();
    const { focused, projection } = state;
    if (!document) return false;
    if (focused !== null && !editor.getState().chosen.includes(focused) && thingNamed(document, focused))
      choose(editor, [focused]);
    const things = editor
      .getState()
      .chosen.flatMap((id) => thingNamed(document, id) ?? [])
      .filter(({ id, kind }) => !isLocked(state, id, kind));
    if (things.length === 0) return false;
    const by_m = NUDGE_m[editor.getState().lengths] * (more ? MORE : 1);
    const along = marksAlong(document, things).filter(({ id, kind }) => !isLocked(state, id, kind));
    const places = new Map(
      [...things, ...along].map(({ id, position_m }): [string, Vec3] => {
        const [u, v] = flat(position_m, projection);
        const [x, y, z] = atPlace(position_m, [u + by_m * way[0], v + by_m * way[1]], projection);
        return [id, [x, y + by_m * raise, z]];
      }),
    );
    nudging = true;
    beginGesture(editor, 'keys');
    edit(editor, placeThings(document, places), stepFor(raise === 0 ? 'Move' : 'Raise', things));
    return true;
  };

  /** To the next thing, or null where Tab leaves the drawing. */
  const next = (by: 1 | -1): string | null => {
    const document = documentShown(editor.getState());
    const state = plan.getState();
    if (!document) return null;
    const ids = planThings(document)
      .filter(({ id, kind }) => !isHidden(state, id, kind))
      .map(({ id }) => id);
    const at = ids.indexOf(state.focused ?? ids[0] ?? '');
    return ids[at + by] ?? null;
  };

  return {
    /** Whether the key was used; `focus` is told to which thing the focus goes. */
    down({ key, shift, mod, alt }: PlanKey, focus: (id: string) => void): boolean {
      const escaped = leaving;
      leaving = false;
      if (key === 'Tab' && !mod && !alt) {
        const to = escaped ? null : next(shift ? -1 : 1);
        if (to === null) return false;
        focus(to);
        return true;
      }
      if (key === 'Escape') {
        // A second thought first ends what is under way; then Tab leaves the drawing, however much stands in it.
        if (placingNow()) stopPlacing();
        else if (plan.getState().settingDatum) plan.setState({ settingDatum: false });
        else leaving = true;
        return true;
      }
      const { focused } = plan.getState();
      if ((key === 'Enter' || key === ' ') && focused !== null && !mod) {
        if (shift) chooseToo(editor, focused);
        else choose(editor, [focused]);
        return true;
      }
      const way = WAYS[key];
      if (way && !mod && !alt) return nudge(way, 0, shift);
      if ((key === 'PageUp' || key === 'PageDown') && !mod && !alt)
        return nudge([0, 0], key === 'PageUp' ? 1 : -1, shift);
      if (alt) return false;
      const pressed = `${mod ? 'Mod+' : ''}${shift ? 'Shift+' : ''}${key}`.toLowerCase();
      const action = planActions(editor).find(({ keys }) => keys?.toLowerCase() === pressed);
      if (!action?.enabled()) return false;
      action.run();
      return true;
    },

    /** All nudges of one held key are one step. */
    up(): void {
      if (nudging) endGesture(editor);
      nudging = false;
    },
  };
}
