import { choose, chooseToo } from '../../store/choose.ts';
import type { EditorStore } from '../../store/editor-store.ts';
import { beginGesture, edit, endGesture } from '../../store/edits.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { marksAlong } from '../arrange/marks-along.ts';
import { planThings, type ThingKind, thingNamed } from '../arrange/plan-things.ts';
import { gridSpacing } from '../drawing/grid.ts';
import { atPlace, type Flat, flat } from '../drawing/projection.ts';
import { boundsOf, holds, onSheet, panned, type Viewport, zoomed } from '../drawing/viewport.ts';
import { isHidden, isLocked, LEVELS_m, type PlanStore } from '../plan-state.ts';
import { bodySize_px, cornersOf } from './body-size.ts';
import {
  type Drag,
  dragAim,
  dragHeading,
  dragHeight,
  dragPathPoint,
  dragThings,
  type Hold,
} from './drags.ts';
import { type Handle, handleAt, handlesOf } from './handles.ts';
import { snapMove, snapTargets } from './snap.ts';

/** A finger or a mouse button that goes down on the sheet. */
export interface Press {
  readonly pointer: number;
  readonly at_px: Flat;
  readonly touch: boolean;
  readonly shift: boolean;
  /** The thing whose outline is there. */
  readonly over: string | null;
  /** Something is in hand to be put down: the press is where to, and a drag moves the sheet. */
  readonly placing?: boolean;
}

/** Gloved fingers are forgiven more. */
const REACH_px = { touch: 26, mouse: 15 };
const MOVED_px = { touch: 10, mouse: 4 };
const LONG_PRESS_ms = 550;
const CATCH_px = 7;
/** A body larger than this share of the sheet is ground: dragging it moves the sheet, unless it is chosen. */
const GROUND_SHARE = 0.34;

/** Drawn round only when all of it is within the rectangle; the others by what they are placed by. */
const EXTENDED: ReadonlySet<ThingKind> = new Set(['solids', 'paths', 'keepOut', 'haze']);

type Phase =
  | { readonly is: 'idle' | 'spent' }
  | { readonly is: 'pressed'; readonly press: Press; readonly handle: Handle | null }
  | { readonly is: 'panning'; readonly last_px: Flat }
  | { readonly is: 'pinching' }
  | { readonly is: 'lasso'; readonly from_m: Flat }
  | { readonly is: 'dragging'; readonly drag: Drag };

/** What fingers and the mouse do to the sheet: choose, drag, draw round things, move the sheet itself. */
export function newPlanHands(editor: EditorStore, plan: PlanStore) {
  let phase: Phase = { is: 'idle' };
  let longPress: ReturnType<typeof setTimeout> | undefined;
  const pointers = new Map<number, Flat>();

  const view = (): Viewport | undefined => plan.getState().views[plan.getState().projection];
  const setView = (next: Viewport) =>
    plan.setState(({ views, projection }) => ({ views: { ...views, [projection]: next } }));
  const place = (at_px: Flat): Flat => onSheet(view()!, plan.getState().size, at_px);
  const documentNow = () => documentShown(editor.getState());

  const settle = () => {
    clearTimeout(longPress);
    if (phase.is === 'dragging') endGesture(editor);
    plan.setState({ guides: [], lasso: null });
  };

  const hold = (at_px: Flat, moved: ReadonlySet<string>): Hold => {
    const state = plan.getState();
    const document = documentNow()!;
    const { scale_px_m } = view()!;
    const others = planThings(document)
      .filter(({ id, kind }) => !moved.has(id) && !isHidden(state, id, kind))
      .map(({ position_m }) => flat(position_m, state.projection));
    const { minor_m } = gridSpacing(scale_px_m, editor.getState().lengths);
    return {
      document,
      projection: state.projection,
      from_m: place(at_px),
      targets: snapTargets(others, minor_m),
      reach_m: CATCH_px / scale_px_m,
    };
  };

  const movable = (id: string): boolean => {
    const document = documentNow();
    const thing = document && thingNamed(document, id);
    return thing !== undefined && !isLocked(plan.getState(), id, thing.kind);
  };

  /** The drag that begins where something was pressed; null where that moves the sheet. */
  const dragFrom = (press: Press, handle: Handle | null): Drag | null => {
    const document = documentNow();
    const id = handle?.id ?? press.over;
    if (!document || id === null || !movable(id)) return null;
    const thing = thingNamed(document, id)!;
    if (handle?.what === 'turn') return dragHeading(hold(press.at_px, new Set([id])), id);
    if (handle?.what === 'raise') return dragHeight(hold(press.at_px, new Set([id])), thing);
    if (handle?.what === 'aim') return dragAim(hold(press.at_px, new Set()), id);
    if (handle?.what === 'path-point')
      return dragPathPoint(hold(press.at_px, new Set([id])), id, handle.index);
    const chosen = editor.getState().chosen;
    if (!chosen.includes(id)) {
      if (!handle && isGround(id)) return null;
      choose(editor, [id]);
    }
    const with_ = editor.getState().chosen.filter((one) => one !== id && movable(one));
    const things = [id, ...with_].map((one) => thingNamed(document, one)!);
    const along = marksAlong(document, things).filter((one) => movable(one.id));
    const moved = new Set([...things, ...along].map((one) => one.id));
    return dragThings(hold(press.at_px, moved), things, along);
  };

  const isGround = (id: string): boolean => {
    const { projection, size } = plan.getState();
    const extent = bodySize_px(documentNow()!, id, projection, view()!.scale_px_m);
    return extent[0] > GROUND_SHARE * size.width_px || extent[1] > GROUND_SHARE * size.height_px;
  };

  const begin = (press: Press, handle: Handle | null, at_px: Flat): Phase => {
    if (press.placing) return { is: 'panning', last_px: at_px };
    if (press.shift && (!handle || handle.what === 'thing'))
      return { is: 'lasso', from_m: place(press.at_px) };
    const drag = dragFrom(press, handle);
    if (drag) plan.setState({ focused: handle?.id ?? press.over });
    if (!drag) return { is: 'panning', last_px: at_px };
    beginGesture(editor, 'drag');
    return { is: 'dragging', drag };
  };

  const setDatum = (at_px: Flat, handle: Handle | null, free: boolean) => {
    const state = plan.getState();
    const document = documentNow();
    const thing = handle?.what === 'thing' && document && thingNamed(document, handle.id);
    const { targets, reach_m, from_m } = hold(at_px, new Set());
    const { du_m, dv_m } = snapMove([from_m], 0, 0, targets, reach_m);
    const [u, v]: Flat = free ? from_m : [from_m[0] + du_m, from_m[1] + dv_m];
    const ground =
      state.projection === 'plan' ? ([0, LEVELS_m[state.level], 0] as const) : ([0, 0, 0] as const);
    const datum_m = thing ? thing.position_m : atPlace(ground, [u, v], state.projection);
    plan.setState({ datum_m, settingDatum: false });
  };

  const lassoed = (from_m: Flat, to_m: Flat) => {
    const state = plan.getState();
    const document = documentNow();
    const bounds = boundsOf([from_m, to_m]);
    if (!document || !bounds) return;
    const within = planThings(document)
      .filter(({ id, kind }) => !isHidden(state, id, kind) && !isLocked(state, id, kind))
      .filter(({ id, kind, position_m }) => {
        const corners = EXTENDED.has(kind) ? cornersOf(document, id, state.projection) : [];
        return [flat(position_m, state.projection), ...corners].every((corner) => holds(bounds, corner));
      })
      .map(({ id }) => id);
    const before = editor.getState().chosen;
    choose(editor, [...before, ...within.filter((id) => !before.includes(id))]);
  };

  const clicked = ({ shift, over, placing }: Press, handle: Handle | null) => {
    if (placing) return;
    const id = handle?.id ?? over;
    if (id === null) {
      if (!shift) choose(editor, []);
    } else if (handle && handle.what !== 'thing') return;
    else if (shift) chooseToo(editor, id);
    else choose(editor, [id]);
    if (id !== null) plan.setState({ focused: id });
  };

  return {
    /** What is under a pointer that is not down, to show that it can be taken. */
    handleUnder(at_px: Flat): Handle | null {
      const document = documentNow();
      const now = view();
      if (!document || !now) return null;
      const { chosen } = editor.getState();
      const handles = handlesOf(document, chosen, plan.getState(), now.scale_px_m);
      return handleAt(handles, place(at_px), REACH_px.mouse, now.scale_px_m);
    },

    down(press: Press): void {
      const now = view();
      const document = documentNow();
      if (!now || !document) return;
      pointers.set(press.pointer, press.at_px);
      clearTimeout(longPress);
      if (pointers.size > 1) {
        settle();
        phase = { is: 'pinching' };
        return;
      }
      const handles = handlesOf(document, editor.getState().chosen, plan.getState(), now.scale_px_m);
      const reach_px = press.touch ? REACH_px.touch : REACH_px.mouse;
      const handle = handleAt(handles, place(press.at_px), reach_px, now.scale_px_m);
      if (plan.getState().settingDatum) {
        setDatum(press.at_px, handle, !plan.getState().snapping);
        phase = { is: 'spent' };
        return;
      }
      phase = { is: 'pressed', press, handle };
      if (press.touch && !press.placing)
        longPress = setTimeout(() => {
          const id = handle?.id ?? press.over;
          if (id !== null) chooseToo(editor, id);
          phase = { is: 'spent' };
        }, LONG_PRESS_ms);
    },

    /** `free`: nothing catches. */
    move(pointer: number, at_px: Flat, free: boolean): void {
      const before = pointers.get(pointer);
      const now = view();
      if (!before || !now) return;
      if (phase.is === 'pinching') {
        const others = [...pointers].filter(([one]) => one !== pointer);
        pointers.set(pointer, at_px);
        const other = others[0]?.[1];
        if (!other) return;
        const span = (a: Flat) => Math.max(1, Math.hypot(a[0] - other[0], a[1] - other[1]));
        const middle = (a: Flat): Flat => [(a[0] + other[0]) / 2, (a[1] + other[1]) / 2];
        const [from, to] = [middle(before), middle(at_px)];
        const pannedView = panned(now, to[0] - from[0], to[1] - from[1]);
        setView(zoomed(pannedView, plan.getState().size, to, span(at_px) / span(before)));
        return;
      }
      pointers.set(pointer, at_px);
      if (phase.is === 'pressed') {
        const { press, handle } = phase;
        const least_px = press.touch ? MOVED_px.touch : MOVED_px.mouse;
        if (Math.hypot(at_px[0] - press.at_px[0], at_px[1] - press.at_px[1]) < least_px) return;
        clearTimeout(longPress);
        phase = begin(press, handle, press.at_px);
      }
      if (phase.is === 'panning') {
        setView(panned(now, at_px[0] - phase.last_px[0], at_px[1] - phase.last_px[1]));
        phase = { is: 'panning', last_px: at_px };
      } else if (phase.is === 'lasso') {
        plan.setState({ lasso: [phase.from_m, place(at_px)] });
      } else if (phase.is === 'dragging') {
        // Undone or overtaken by another scene while the pointer is still down: what is in hand is let go.
        if (!editor.getState().gesture) {
          settle();
          phase = { is: 'spent' };
          return;
        }
        const { commands, guides } = phase.drag.to(place(at_px), free || !plan.getState().snapping);
        edit(editor, commands, phase.drag.step);
        plan.setState({ guides });
      }
    },

    up(pointer: number): void {
      if (!pointers.delete(pointer)) return;
      if (phase.is === 'pressed') clicked(phase.press, phase.handle);
      else if (phase.is === 'lasso') {
        const { lasso } = plan.getState();
        if (lasso) lassoed(...lasso);
      }
      settle();
      phase = { is: pointers.size > 0 ? 'spent' : 'idle' };
    },

    cancel(pointer: number): void {
      if (!pointers.delete(pointer)) return;
      settle();
      phase = { is: pointers.size > 0 ? 'spent' : 'idle' };
    },

    zoom(at_px: Flat, factor: number): void {
      const now = view();
      if (now) setView(zoomed(now, plan.getState().size, at_px, factor));
    },
  };
}

export type PlanHands = ReturnType<typeof newPlanHands>;
