import { useMemo } from 'react';
import { signed } from '../../../paperwork/signed-text.ts';
import type { PlanPoint, PlanRegion } from '../../../scene/mirror/plan.ts';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { isoLines } from '../light/iso-lines.ts';
import { isCurrent } from '../light/keep-light.ts';
import { linePath, ringPath } from '../shapes/path-data.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';

/** Lines of equal light, and where the lamp is clear of glints: on the plan, under everything that stands there. */
export function LightLayer() {
  const projection = usePlan((state) => state.projection);
  if (projection !== 'plan') return null;
  return (
    <>
      <ClearRegionDrawing />
      <ContoursDrawing />
    </>
  );
}

/** Whether what is drawn is of the scene as it stands. */
export function useCurrent(kind: 'contours' | 'clear'): boolean {
  const editor = useEditorStore();
  const plan = usePlanStore();
  // Either of the two stores may have moved on.
  useEditor((state) => isCurrent(kind, state, plan.getState()));
  return usePlan((state) => isCurrent(kind, editor.getState(), state));
}

function ContoursDrawing() {
  const answer = usePlan((state) => state.contours.answer);
  const scale = usePlan((state) => state.contourScale);
  const unit = useEditor((state) => state.unit);
  const current = useCurrent('contours');
  const light = answer?.found ?? null;
  const lines = useMemo(() => (light ? isoLines(light, scale, unit) : []), [light, scale, unit]);
  return (
    <g className={current ? 'plan-iso' : 'plan-iso stale'}>
      {lines.map(({ stops, text, lines: pieces }) => {
        const longest = pieces.reduce((a, b) => (b.length > a.length ? b : a));
        return (
          <g key={text} className={stops === 0 ? 'plan-iso-line zero' : 'plan-iso-line'}>
            <path d={pieces.map((piece) => linePath(piece)).join('')} />
            <Label at={longest[longest.length >> 1]!} text={text} />
          </g>
        );
      })}
    </g>
  );
}

function ClearRegionDrawing() {
  const answer = usePlan((state) => state.clear.answer);
  const current = useCurrent('clear');
  const region = answer?.found;
  if (!region) return null;
  const { low_m, high_m, clear, stops, nearest } = region;
  const frame: PlanPoint[] = [low_m, [high_m[0], low_m[1]], high_m, [low_m[0], high_m[1]]];
  return (
    <g className={current ? 'plan-clear' : 'plan-clear stale'}>
      <path className="plan-looked-at" d={ringPath(frame)} />
      <path className="plan-clear-region" d={regionPath(clear)} />
      {stops?.contours.map(({ atLeast_stops, region: within }) => {
        const ring = within[0]?.[0];
        if (!ring) return null;
        return (
          <g key={atLeast_stops} className="plan-cost">
            <path d={regionPath(within)} />
            <Label at={ring[ring.length >> 1]!} text={signed(atLeast_stops, 1)} />
          </g>
        );
      })}
      {nearest && (
        <g transform={`translate(${nearest.at_m[0]} ${nearest.at_m[1]})`}>
          <g className="plan-sign">
            <path className="plan-nearest" d="M-7-7L7 7M-7 7L7-7" />
          </g>
        </g>
      )}
    </g>
  );
}

function regionPath(region: PlanRegion): string {
  return region.flatMap((polygon) => polygon.map((ring) => ringPath(ring))).join('');
}

function Label({ at, text }: { readonly at: PlanPoint; readonly text: string }) {
  return (
    <g transform={`translate(${at[0]} ${at[1]})`}>
      <g className="plan-sign">
        <text className="plan-label" y={4}>
          {text}
        </text>
      </g>
    </g>
  );
}
