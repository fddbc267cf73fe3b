import { type PointerEvent as ReactPointerEvent, useEffect, useMemo, useRef } from 'react';
import { placingNow, usePlacing } from '../../building/placing.ts';
import { placingOn } from '../../building/placing-on.ts';
import type { EditorState } from '../../store/editor-state.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../../store/use-editor.ts';
import { planThings } from '../arrange/plan-things.ts';
import { newPlanHands } from '../hands/plan-hands.ts';
import { newPlanKeys } from '../hands/plan-keys.ts';
import { isHidden, type PlanState } from '../plan-state.ts';
import { usePlan, usePlanStore } from '../use-plan.ts';
import { BodiesLayer } from './bodies-layer.tsx';
import { CamerasLayer, WedgesLayer } from './cameras-layer.tsx';
import { BeamCaption, ChosenNames } from './chosen-names.tsx';
import { DimensionLayer } from './dimension-layer.tsx';
import { fitAll } from './fit.ts';
import { GhostLayer } from './ghost-layer.tsx';
import { AxisCross, GridLabels, GridLayer, ScaleBar } from './grid-layer.tsx';
import { GroundLayer } from './ground-layer.tsx';
import { GuideLayer, HandleLayer } from './hand-layer.tsx';
import { BeamsLayer, LampsLayer } from './lamps-layer.tsx';
import { LightLayer } from './light-layer.tsx';
import { LitMark, MarksLayer } from './marks-layer.tsx';
import { atPlace, type Flat, flat, SHEETS } from './projection.ts';
import { holds, onSheet, type Viewport, visible } from './viewport.ts';

/** A notch of the wheel magnifies by a fifth. */
const PER_WHEEL_px = Math.log(1.2) / 100;

/** The measured drawing itself, and all that hands and keys do on it. */
export function PlanSheet() {
  const editor = useEditorStore();
  const plan = usePlanStore();
  const projection = usePlan((state) => state.projection);
  const setting = usePlan((state) => state.settingDatum);
  const placing = usePlacing() !== null;
  const svg = useRef<SVGSVGElement>(null);
  const hands = useMemo(() => newPlanHands(editor, plan), [editor, plan]);
  const keys = useMemo(() => newPlanKeys(editor, plan), [editor, plan]);
  useSheetSize(svg);
  useFirstFit();
  useWorldTransform(svg);
  useWheel(svg, hands.zoom);
  const putting = useMemo(
    () =>
      placingOn(({ clientX, clientY }) => {
        const { views, projection: sheet, size } = plan.getState();
        const view = views[sheet];
        if (sheet !== 'plan' || !view || !svg.current) return null;
        const { left, top } = svg.current.getBoundingClientRect();
        return atPlace([0, 0, 0], onSheet(view, size, [clientX - left, clientY - top]), sheet);
      }),
    [plan],
  );

  const at = (event: { clientX: number; clientY: number }): Flat => {
    const { left, top } = svg.current!.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  };
  const frames = useFrames();

  const focusThing = (id: string) => {
    plan.setState({ focused: id });
    bringIntoSight(id);
    svg.current
      ?.querySelector<SVGGElement>(`[data-thing="${CSS.escape(id)}"]`)
      ?.focus({ preventScroll: true });
  };
  const bringIntoSight = (id: string) => {
    const document = documentShown(editor.getState());
    const state = plan.getState();
    const view = state.views[state.projection];
    const thing = document && planThings(document).find((one) => one.id === id);
    if (!thing || !view) return;
    const place = flat(thing.position_m, state.projection);
    if (holds(visible(view, state.size), place)) return;
    plan.setState({ views: { ...state.views, [state.projection]: { ...view, centre_m: place } } });
  };

  const down = (event: ReactPointerEvent<SVGSVGElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    hands.down({
      pointer: event.pointerId,
      at_px: at(event),
      touch: event.pointerType === 'touch',
      shift: event.shiftKey,
      over: thingUnder(event.target),
      placing: placingNow() !== null,
    });
  };
  const move = (event: ReactPointerEvent<SVGSVGElement>) => {
    const { pointerId, altKey, buttons, target, currentTarget } = event;
    const place = at(event);
    frames.next(pointerId, () => {
      if (buttons !== 0) hands.move(pointerId, place, altKey);
      else
        currentTarget.dataset.under =
          hands.handleUnder(place)?.what ?? (thingUnder(target) ? 'body' : 'sheet');
    });
  };
  const up = (event: ReactPointerEvent<SVGSVGElement>) => {
    frames.flush();
    hands.up(event.pointerId);
    const { focused } = plan.getState();
    if (focused !== null && editor.getState().chosen.includes(focused)) focusThing(focused);
    else svg.current?.focus({ preventScroll: true });
  };

  return (
    <div className="plan-ground" {...putting}>
      <svg
        ref={svg}
        className={setting || placing ? 'plan-svg setting' : 'plan-svg'}
        role="application"
        aria-roledescription="measured drawing"
        aria-label={`${SHEETS[projection].name}. Tab goes from thing to thing, arrows move what is chosen, Escape and Tab leave.`}
        tabIndex={-1}
        // The focus goes to what was taken hold of, not to what lies there uppermost.
        onMouseDown={(event) => event.preventDefault()}
        onContextMenu={(event) => event.preventDefault()}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={(event) => {
          frames.flush();
          hands.cancel(event.pointerId);
        }}
        onKeyDown={(event) => {
          const { key, shiftKey, ctrlKey, metaKey, altKey } = event;
          const pressed = { key, shift: shiftKey, mod: ctrlKey || metaKey, alt: altKey };
          if (keys.down(pressed, focusThing)) event.preventDefault();
        }}
        onKeyUp={keys.up}
        onBlur={keys.up}
      >
        <KeptFocus />
        <Hatches />
        <g className="plan-world">
          <BodiesLayer />
        </g>
        <GridLayer />
        <g className="plan-world">
          <LightLayer />
          <GroundLayer />
          <WedgesLayer />
          <BeamsLayer />
          <CamerasLayer />
          <LampsLayer />
          <MarksLayer />
          <LitMark />
          <HandleLayer />
          <ChosenNames />
          <DimensionLayer />
          <GhostLayer />
        </g>
        <GridLabels />
        <BeamCaption />
        <GuideLayer />
        <ScaleBar />
        <AxisCross />
      </svg>
    </div>
  );
}

/** A pointer may move more often than the screen is drawn: the latest place of each counts. */
function useFrames() {
  const waiting = useRef(new Map<number, () => void>());
  const frame = useRef(0);
  const flush = () => {
    cancelAnimationFrame(frame.current);
    const runs = [...waiting.current.values()];
    waiting.current.clear();
    for (const run of runs) run();
  };
  const next = (pointer: number, run: () => void) => {
    if (waiting.current.size === 0) frame.current = requestAnimationFrame(flush);
    waiting.current.set(pointer, run);
  };
  return { next, flush };
}

function thingUnder(target: EventTarget | null): string | null {
  return target instanceof Element
    ? (target.closest('[data-thing]')?.getAttribute('data-thing') ?? null)
    : null;
}

function useSheetSize(svg: React.RefObject<SVGSVGElement | null>): void {
  const plan = usePlanStore();
  useEffect(() => {
    const measure = () => {
      const { width, height } = svg.current!.getBoundingClientRect();
      plan.setState({ size: { width_px: width, height_px: height } });
    };
    const observer = new ResizeObserver(measure);
    observer.observe(svg.current!);
    measure();
    return () => observer.disconnect();
  }, [plan, svg]);
}

/**
 * Every scene, and every sheet of it, is first shown whole, and stays so in whatever room it has and whatever is added to it,
 * until the sheet is moved by hand.
 */
function useFirstFit(): void {
  const editor = useEditorStore();
  const plan = usePlanStore();
  const size = usePlan((state) => state.size);
  const bare = usePlan(({ views, projection }) => views[projection] === undefined);
  const opened = useEditor((state) => state.scene !== null);
  const placed = useEditor(thingsPlaced);
  const whole = useRef<Viewport | undefined>(undefined);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is added is to be seen.
  useEffect(() => {
    const shown = () => plan.getState().views[plan.getState().projection];
    if (size.width_px === 0 || !opened || !(bare || shown() === whole.current)) return;
    fitAll(editor);
    whole.current = shown();
  }, [editor, plan, size, bare, opened, placed]);
}

/** How many things there are that the sheet is fitted to. */
function thingsPlaced(state: EditorState): number {
  const { lamps, marks, figures, cameras, solids } = documentShown(state) ?? {};
  return [lamps, marks, figures, cameras, solids].reduce((sum, list) => sum + (list?.length ?? 0), 0);
}

/** Moving or magnifying the sheet sets one transform; nothing is drawn anew. */
function useWorldTransform(svg: React.RefObject<SVGSVGElement | null>): void {
  const plan = usePlanStore();
  useEffect(() => {
    let applied: readonly unknown[] = [];
    const apply = ({ views, projection, size }: PlanState) => {
      const view = views[projection];
      if (!view || (applied[0] === view && applied[1] === size)) return;
      applied = [view, size];
      const { scale_px_m: s, centre_m } = view;
      const x = size.width_px / 2 - centre_m[0] * s;
      const y = size.height_px / 2 - centre_m[1] * s;
      for (const world of svg.current!.querySelectorAll('.plan-world'))
        world.setAttribute('transform', `translate(${x} ${y}) scale(${s})`);
      svg.current!.style.setProperty('--per-px', String(1 / s));
      for (const pattern of svg.current!.querySelectorAll('pattern'))
        pattern.setAttribute('patternTransform', `scale(${1 / s}) rotate(45)`);
    };
    apply(plan.getState());
    return plan.subscribe(apply);
  }, [plan, svg]);
}

/** There is always one thing that Tab goes to from outside. By itself, so that the sheet is not drawn anew with every edit. */
function KeptFocus() {
  const plan = usePlanStore();
  const document = useEditor(documentShown);
  const hidden = usePlan((state) => state.hidden);
  const hiddenKinds = usePlan((state) => state.hiddenKinds);
  useEffect(() => {
    const seen = document
      ? planThings(document).filter(({ id, kind }) => !isHidden({ hidden, hiddenKinds }, id, kind))
      : [];
    const { focused } = plan.getState();
    if (!seen.some(({ id }) => id === focused)) plan.setState({ focused: seen[0]?.id ?? null });
  }, [plan, document, hidden, hiddenKinds]);
  const focused = usePlan((state) => state.focused);
  useEffect(() => {
    const holder = window.document.activeElement;
    const sheet = holder?.closest('.plan-svg');
    // The keys go on with what has taken the place of the one that had them, such as its copy.
    if (!sheet || focused === null || !holder?.hasAttribute('data-thing')) return;
    sheet.querySelector<SVGGElement>(`[data-thing="${CSS.escape(focused)}"]`)?.focus({ preventScroll: true });
  }, [focused]);
  return null;
}

function useWheel(
  svg: React.RefObject<SVGSVGElement | null>,
  zoom: (at_px: Flat, factor: number) => void,
): void {
  useEffect(() => {
    const sheet = svg.current!;
    const turned = (event: WheelEvent) => {
      event.preventDefault();
      const { left, top } = sheet.getBoundingClientRect();
      const pixels = event.deltaMode === 1 ? event.deltaY * 30 : event.deltaY;
      zoom([event.clientX - left, event.clientY - top], Math.exp(-pixels * PER_WHEEL_px));
    };
    sheet.addEventListener('wheel', turned, { passive: false });
    return () => sheet.removeEventListener('wheel', turned);
  }, [svg, zoom]);
}

/** The same on screen however large the sheet is drawn. */
function Hatches() {
  return (
    <defs>
      <pattern id="plan-hatch" width={9} height={9} patternUnits="userSpaceOnUse">
        <path className="plan-hatch" d="M0 0V9" />
      </pattern>
      <pattern id="plan-clear-fill" width={10} height={10} patternUnits="userSpaceOnUse">
        <rect className="plan-clear-ground" width={10} height={10} />
        <circle className="plan-clear-dot" cx={5} cy={5} r={1.3} />
      </pattern>
    </defs>
  );
}
