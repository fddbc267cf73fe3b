import type { Vec3 } from '../../../core/math/vec3.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import { planThings, type ThingKind } from '../arrange/plan-things.ts';
import { headingOf_deg } from '../arrange/turn.ts';
import { type Flat, flat, type Projection } from '../drawing/projection.ts';
import { isHidden, type PlanState } from '../plan-state.ts';

/** What can be taken hold of on the sheet, and where. */
export type Handle = { readonly id: string; readonly at_m: Flat } & (
  | { readonly what: 'thing'; readonly kind: ThingKind }
  | { readonly what: 'aim'; readonly field: 'aim_m' | 'look_m' }
  | { readonly what: 'turn' | 'raise' }
  | { readonly what: 'path-point'; readonly index: number }
);

/** How far off its thing a knob hangs. */
export const KNOB_px = 46;

/** Bodies are taken by their outline; the others are signs about a point. */
const SIGNS: ReadonlySet<ThingKind> = new Set(['lamps', 'marks', 'cameras']);

/** The aim of a lamp, the look of a camera. */
export function aimOf(
  document: SceneDocument,
  id: string,
): { readonly field: 'aim_m' | 'look_m'; readonly point_m: Vec3 } | null {
  const lamp = document.lamps?.find((one) => one.id === id);
  if (lamp) return { field: 'aim_m', point_m: lamp.aim_m };
  const camera = document.cameras?.find((one) => one.id === id);
  return camera ? { field: 'look_m', point_m: camera.look_m } : null;
}

/** Where the knob hangs that turns a thing: the way it looks. Null for what does not turn, and in elevation. */
export function turnKnob(
  document: SceneDocument,
  id: string,
  projection: Projection,
  scale_px_m: number,
): Flat | null {
  const heading_deg = projection === 'plan' ? headingOf_deg(document, id) : null;
  const thing = planThings(document).find((one) => one.id === id);
  if (heading_deg === null || !thing) return null;
  const heading = (heading_deg * Math.PI) / 180;
  const [u, v] = flat(thing.position_m, projection);
  const off_m = KNOB_px / scale_px_m;
  return [u + off_m * Math.sin(heading), v + off_m * Math.cos(heading)];
}

/** Where the knob hangs that lifts a thing: straight above it, in elevation. */
export function raiseKnob(
  document: SceneDocument,
  id: string,
  projection: Projection,
  scale_px_m: number,
): Flat | null {
  const thing = planThings(document).find((one) => one.id === id);
  if (projection === 'plan' || !thing || thing.kind === 'keepOut') return null;
  const [u, v] = flat(thing.position_m, projection);
  return [u, v - KNOB_px / scale_px_m];
}

/** Those of what can be seen: knobs and aims of what is chosen, then the signs. */
export function handlesOf(
  document: SceneDocument,
  chosen: readonly string[],
  plan: PlanState,
  scale_px_m: number,
): readonly Handle[] {
  const { projection } = plan;
  const things = planThings(document).filter(({ id, kind }) => !isHidden(plan, id, kind));
  const handles: Handle[] = [];
  const last = things.find(({ id }) => id === chosen.at(-1));
  if (last) {
    const turn = turnKnob(document, last.id, projection, scale_px_m);
    if (turn) handles.push({ what: 'turn', id: last.id, at_m: turn });
    const raise = raiseKnob(document, last.id, projection, scale_px_m);
    if (raise) handles.push({ what: 'raise', id: last.id, at_m: raise });
  }
  for (const { id, kind } of things) {
    if (!chosen.includes(id)) continue;
    const aim = aimOf(document, id);
    if (aim) handles.push({ what: 'aim', id, field: aim.field, at_m: flat(aim.point_m, projection) });
    if (kind === 'paths')
      for (const [index, point] of document.paths!.find((path) => path.id === id)!.points.entries())
        handles.push({ what: 'path-point', id, index, at_m: flat(point.position_m, projection) });
  }
  for (const { id, kind, position_m } of things)
    if (SIGNS.has(kind)) handles.push({ what: 'thing', id, kind, at_m: flat(position_m, projection) });
  return handles;
}

/** Signs of things lie under the knobs and aims of what is chosen: those are taken first if they are hardly further off. */
const PREFERRED_px = 8;

/** The nearest within reach; null if there is none. */
export function handleAt(
  handles: readonly Handle[],
  at_m: Flat,
  reach_px: number,
  scale_px_m: number,
): Handle | null {
  let best: Handle | null = null;
  let least_px = Number.POSITIVE_INFINITY;
  for (const handle of handles) {
    const off_px = Math.hypot(handle.at_m[0] - at_m[0], handle.at_m[1] - at_m[1]) * scale_px_m;
    if (off_px > reach_px) continue;
    const counted_px = off_px + (handle.what === 'thing' ? 0 : -PREFERRED_px);
    if (counted_px >= least_px) continue;
    least_px = counted_px;
    best = handle;
  }
  return best;
}
