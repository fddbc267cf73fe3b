import { useEffect, useMemo, useRef, useState } from 'react';
import type { Vec3 } from '../../../core/math/vec3.ts';
import { usePlacing } from '../../building/placing.ts';
import { ghostsOf } from '../shapes/ghosts.ts';
import { linePath } from '../shapes/path-data.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';
import { atPlace, flat } from './projection.ts';
import { onSheet } from './viewport.ts';

/** What is in hand, as it would stand if it were put down where the pointer is. */
export function GhostLayer() {
  const placing = usePlacing();
  const onPlan = usePlan((state) => state.projection === 'plan');
  const group = useRef<SVGGElement>(null);
  const at_m = usePointerOnPlan(group, placing !== null && onPlan);
  const drawn = useMemo(() => {
    if (!placing || !at_m) return [];
    return placing.make(at_m).flatMap(ghostsOf);
  }, [placing, at_m]);
  const pressed = placing?.points_m.map((point_m) => flat(point_m, 'plan')) ?? [];
  const pointer = at_m && flat(at_m, 'plan');
  return (
    <g ref={group} className="plan-ghost">
      {onPlan && pointer && placing && (
        <>
          {pressed.length > 0 && <path d={linePath([...pressed, pointer])} />}
          {drawn.map(({ id, d }) => d && <path key={id} className="plan-ghost-body" d={d} />)}
          {[...pressed, pointer, ...drawn.flatMap(({ at }) => (at ? [at] : []))].map(([u, v], i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: places, drawn whole with every move of the pointer
            <g key={i} transform={`translate(${u} ${v})`}>
              <circle className="plan-sign plan-ghost-place" r={9} />
            </g>
          ))}
        </>
      )}
    </g>
  );
}

/** Where the pointer is over the ground of the plan, once a frame; null away from it. */
function usePointerOnPlan(group: React.RefObject<SVGGElement | null>, wanted: boolean): Vec3 | null {
  const plan = usePlanStore();
  const [at_m, setAt] = useState<Vec3 | null>(null);
  useEffect(() => {
    const sheet = group.current?.ownerSVGElement?.parentElement;
    if (!wanted || !sheet) return;
    let frame = 0;
    const move = ({ clientX, clientY }: MouseEvent) => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => {
        const { views, size } = plan.getState();
        if (!views.plan) return;
        const { left, top } = sheet.getBoundingClientRect();
        setAt(atPlace([0, 0, 0], onSheet(views.plan, size, [clientX - left, clientY - top]), 'plan'));
      });
    };
    const leave = () => {
      cancelAnimationFrame(frame);
      setAt(null);
    };
    // Both the pointer that is moved with a thing in hand and one that drags it out of the list.
    const moves = ['pointermove', 'dragover'] as const;
    const leaves = ['pointerleave', 'dragleave', 'drop'] as const;
    for (const name of moves) sheet.addEventListener(name, move);
    for (const name of leaves) sheet.addEventListener(name, leave);
    return () => {
      leave();
      for (const name of moves) sheet.removeEventListener(name, move);
      for (const name of leaves) sheet.removeEventListener(name, leave);
    };
  }, [plan, group, wanted]);
  return at_m;
}
