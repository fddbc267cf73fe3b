import { placeInFrame, type ThinLens } from '../../core/camera/thin-lens.ts';
import { zeroOf } from '../../core/exposure/zero.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import { type Span, spansWhere } from '../../core/math/spans.ts';
import { distance, length, normalize, scale, subtract, type Vec3 } from '../../core/math/vec3.ts';
import { type Reading, readMeter } from '../../core/meter/meter.ts';
import { shutterForBlur } from '../../core/optics/motion-blur.ts';
import { sweptShadow } from '../../core/optics/swept-shadow.ts';
import { calibrationOf, chosenCamera, exposureOf, lensOf } from '../camera/scene-camera.ts';
import { figureInFrame } from '../framing/figure-in-frame.ts';
import { DEFAULT_FRAME_WIDTH_px } from '../framing/lens-report.ts';
import { SHARP_px } from '../framing/path-blur.ts';
import { seenBlur_px } from '../framing/seen-blur.ts';
import { hidingPart } from '../framing/sight-line.ts';
import { inFrame } from '../framing/sighting.ts';
import { velocityAt_m_per_s } from '../framing/velocity-at.ts';
import { meterPoint } from '../meter/meter-scene.ts';
import { positionAt_m, timesOf } from '../moves/position-at.ts';
import { nearestName } from '../problems/nearest-name.ts';
import { problemAt, SceneError, shown } from '../problems/problem.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Mark } from '../schema/mark.ts';
import { bodyAt, meteredAt_m, type Walker } from './walker.ts';
import {
  deepestAcross_stops,
  type ShadedMark,
  shadedMark,
  shadowAtMark,
  walkingBody,
} from './walker-shadow.ts';

/** A strip chart of someone who walks: the answer of `keyfall walk --json`, field by field. */
export interface WalkReport {
  readonly keyfall: 1;
  readonly title: string;
  readonly setup: string | null;
  readonly camera: string;
  /** Only where readings of the night have corrected lamps and haze: by how many. */
  readonly corrected?: { readonly readings: number };
  readonly path: string;
  readonly name: string;
  readonly of: string;
  readonly shutter_s: number;
  readonly frameWidth_px: number;
  readonly rate_fps: number;
  /** The camera's zero of a dome. */
  readonly zero_lx: number;
  readonly steps: readonly WalkStep[];
  readonly shadows: readonly ShadowSpan[];
  readonly brightest: WalkExtreme;
  readonly darkest: WalkExtreme;
  /** Where the walker in frame is most blurred; null where it is never in frame. */
  readonly mostBlurred: {
    readonly t_s: number;
    readonly blur_px: number;
    /** What keeps it to SHARP_px; null where it is within that already. */
    readonly sharp: { readonly shutter_s: number; readonly stops: number } | null;
  } | null;
  /** When any of the walker is in frame and the face not hidden. */
  readonly inFrame: readonly { readonly from_s: number; readonly to_s: number }[];
}

export interface WalkStep {
  readonly t_s: number;
  readonly position_m: Vec3;
  readonly speed_m_per_s: number;
  /** Straight light on a dome to the camera, 1.5 m over the path, before the walker is there. */
  readonly dome_lx: number;
  readonly stops: number;
  readonly input_stops: number;
  readonly lamps: readonly {
    readonly id: string;
    readonly dome_lx: number;
    readonly stops: number;
    readonly distance_m: number;
  }[];
  /** Marks that lose more than a tenth of a stop; −Infinity (null in JSON) where all straight light is lost. */
  readonly shadows: readonly {
    readonly mark: string;
    readonly loss_stops: number;
    readonly lamp: string | null;
  }[];
  readonly framing: WalkerFraming;
  /** Null where it passes the lens. */
  readonly blur_px: number | null;
}

export type WalkerFraming = 'whole' | 'cut' | 'hidden' | 'out';

export interface ShadowSpan {
  readonly mark: string;
  readonly name: string;
  readonly from_s: number;
  readonly to_s: number;
  readonly duration_s: number;
  /** Frames of film that show it, counting begun ones. */
  readonly frames: number;
  readonly deepest_stops: number;
  /** The lamp that loses most, and the shadow that it throws past the mark; null where it is the sky that is hidden. */
  readonly lamp: string | null;
  readonly shadow: { readonly width_m: number; readonly speed_m_per_s: number } | null;
}

export interface WalkExtreme {
  readonly t_s: number;
  readonly position_m: Vec3;
  readonly stops: number;
  /** The lamp that gives most there, its share of the light and its distance; null in the dark. */
  readonly lamp: { readonly id: string; readonly share: number; readonly distance_m: number } | null;
}

export interface WalkRequest {
  readonly setup?: string | undefined;
  readonly camera?: string | undefined;
  /** All marks when left out. */
  readonly marks?: readonly string[] | undefined;
  /** By how many readings of the night the light model is corrected. */
  readonly readings?: number | undefined;
  readonly step_s?: number | undefined;
  readonly rate_fps?: number | undefined;
  readonly frameWidth_px?: number | undefined;
}

export const DEFAULT_STEP_s = 0.1;
/** A longer strip than anyone reads. */
export const MOST_STEPS = 3000;
export const SHADOW_STOPS = 0.1;
const ERROR_STOPS = 0.05;

/** Of a scene without the walker, whose setup has been applied and which is compiled to `model`. */
export function walkReport(
  document: SceneDocument,
  model: LightModel,
  walker: Walker,
  request: WalkRequest = {},
): WalkReport {
  const { path } = walker;
  const { from_s, to_s } = timesOf(path);
  const step_s = request.step_s ?? DEFAULT_STEP_s;
  if ((to_s - from_s) / step_s > MOST_STEPS) {
    const at = ['paths', (document.paths ?? []).indexOf(path), 'points'];
    const found = `a walk of ${to_s - from_s} s in steps of ${step_s} s`;
    throw new SceneError([problemAt(document, at, { found, expected: `at most ${MOST_STEPS} steps` })]);
  }
  const camera = chosenCamera(document, request.camera);
  const lens = lensOf(camera);
  const frameWidth_px = request.frameWidth_px ?? DEFAULT_FRAME_WIDTH_px;
  const rate_fps = request.rate_fps ?? (document.site?.mains?.hertz === 60 ? 24 : 25);
  const marks = chosenMarks(document, request.marks).map((mark) => ({
    id: mark.id,
    name: mark.name ?? mark.id,
    lit: shadedMark(model, meterPoint(document, mark, camera), mark.receptor ?? 'dome'),
  }));
  const steps = Array.from({ length: Math.floor((to_s - from_s) / step_s + 1e-9) + 1 }, (_, i) => {
    const t_s = Number((from_s + i * step_s).toFixed(6));
    return walkStep(document, model, walker, camera, lens, marks, t_s, frameWidth_px);
  });
  const framed = (t_s: number) => isFramed(framingAt(model, lens, walker, t_s));
  return {
    keyfall: 1,
    title: document.title,
    setup: request.setup ?? null,
    camera: camera.id,
    ...(request.readings ? { corrected: { readings: request.readings } } : {}),
    path: path.id,
    name: path.name ?? path.id,
    of: path.of,
    shutter_s: camera.shutter_s,
    frameWidth_px,
    rate_fps,
    zero_lx: zeroOf(exposureOf(camera), calibrationOf(document)).dome_lx,
    steps,
    shadows: marks.flatMap((mark) => shadowSpans(model, walker, mark, from_s, to_s, step_s, rate_fps)),
    brightest: extreme(steps, (a, b) => a > b),
    darkest: extreme(steps, (a, b) => a < b),
    mostBlurred: mostBlurred(steps, camera.shutter_s),
    inFrame: spansWhere(framed, from_s, to_s, step_s).map(inSeconds),
  };
}

function chosenMarks(document: SceneDocument, ids: readonly string[] | undefined): readonly Mark[] {
  const marks = document.marks ?? [];
  return (
    ids?.map((id) => {
      const mark = marks.find((m) => m.id === id);
      if (mark) return mark;
      const all = marks.map((m) => m.id);
      const expected = all.length > 0 ? `one of ${all.join(', ')}` : 'none: the scene has no marks';
      const words = { found: `no mark ${shown(id)}`, expected, nearest: nearestName(id, all) };
      throw new SceneError([problemAt(document, ['marks'], words)]);
    }) ?? marks
  );
}

interface WalkedMark {
  readonly id: string;
  readonly name: string;
  readonly lit: ShadedMark;
}

function walkStep(
  document: SceneDocument,
  model: LightModel,
  walker: Walker,
  camera: Camera,
  lens: ThinLens,
  marks: readonly WalkedMark[],
  t_s: number,
  frameWidth_px: number,
): WalkStep {
  const velocity = velocityAt_m_per_s(walker.path, t_s);
  const reading = readingAt(document, model, walker, camera, lens, t_s);
  const body = walkingBody(walker, t_s);
  return {
    t_s,
    position_m: positionAt_m(walker.path, t_s),
    speed_m_per_s: length(velocity),
    dome_lx: reading.dome_lx,
    stops: reading.stops,
    input_stops: reading.uncertainty.input_stops,
    lamps: reading.lamps.map(({ id, illuminance_lx, stops, distance_m }) => ({
      id,
      dome_lx: illuminance_lx,
      stops,
      distance_m,
    })),
    shadows: marks.flatMap(({ id, lit }) => {
      const shadow = shadowAtMark(model, lit, body);
      return shadow.loss_stops < -SHADOW_STOPS ? [{ mark: id, ...shadow }] : [];
    }),
    framing: framingAt(model, lens, walker, t_s),
    blur_px: seenBlur_px(lens, meteredAt_m(walker.path, t_s), velocity, camera.shutter_s, frameWidth_px),
  };
}

function readingAt(
  document: SceneDocument,
  model: LightModel,
  { path }: Walker,
  camera: Camera,
  lens: ThinLens,
  t_s: number,
): Reading {
  const position_m = meteredAt_m(path, t_s);
  const toCamera = subtract(camera.position_m, position_m);
  // Walking through the camera itself, the dome is held against the lens.
  const facing = length(toCamera) > 1e-6 ? normalize(toCamera) : scale(lens.forward, -1);
  return readMeter(model, null, { position_m, facing }, 'dome', {
    exposure: exposureOf(camera),
    calibration: calibrationOf(document),
    error_stops: ERROR_STOPS,
  });
}

function framingAt(model: LightModel, lens: ThinLens, walker: Walker, t_s: number): WalkerFraming {
  const { framing } = figureInFrame(lens, bodyAt(walker, t_s));
  if (framing === 'out') return 'out';
  const face = meteredAt_m(walker.path, t_s);
  const hidden = inFrame(placeInFrame(lens, face)) && hidingPart(model, lens.position_m, face) >= 0;
  return hidden ? 'hidden' : framing;
}

function isFramed(framing: WalkerFraming): boolean {
  return framing === 'whole' || framing === 'cut';
}

function shadowSpans(
  model: LightModel,
  walker: Walker,
  { id, name, lit }: WalkedMark,
  from_s: number,
  to_s: number,
  step_s: number,
  rate_fps: number,
): ShadowSpan[] {
  const shades = (t_s: number) => deepestAcross_stops(model, lit, walkingBody(walker, t_s)) < -SHADOW_STOPS;
  return spansWhere(shades, from_s, to_s, step_s).map((span) => {
    const { from, to } = span;
    const deepest = deepestIn(model, walker, lit, span);
    return {
      mark: id,
      name,
      from_s: from,
      to_s: to,
      duration_s: to - from,
      frames: Math.ceil((to - from) * rate_fps),
      ...deepest,
    };
  });
}

const PROBES = 16;

/** At the mark itself, within a span in which some of the face is shaded. */
function deepestIn(
  model: LightModel,
  walker: Walker,
  lit: ShadedMark,
  { from, to }: Span,
): Pick<ShadowSpan, 'deepest_stops' | 'lamp' | 'shadow'> {
  let deepest = { deepest_stops: 0, lamp: null as string | null, t_s: from };
  for (let i = 0; i <= PROBES; i++) {
    const t_s = from + ((to - from) * i) / PROBES;
    const { loss_stops, lamp } = shadowAtMark(model, lit, walkingBody(walker, t_s));
    if (loss_stops < deepest.deepest_stops) deepest = { deepest_stops: loss_stops, lamp, t_s };
  }
  const { deepest_stops, lamp, t_s } = deepest;
  return { deepest_stops, lamp, shadow: shadowPast(model, walker, lit, lamp, t_s) };
}

/** Common practice, no source: shoulders and swinging arms. */
const BODY_WIDTH_m = 0.5;

function shadowPast(
  model: LightModel,
  walker: Walker,
  lit: ShadedMark,
  lampId: string | null,
  t_s: number,
): ShadowSpan['shadow'] {
  const lamp = model.lamps.find(({ id }) => id === lampId);
  const speed_m_per_s = length(velocityAt_m_per_s(walker.path, t_s));
  if (!lamp || speed_m_per_s === 0) return null;
  const lampToBody_m = distance(lamp.frame.origin_m, meteredAt_m(walker.path, t_s));
  const lampToMark_m = distance(lamp.frame.origin_m, lit.points[0]!.meter.position_m);
  if (lampToBody_m < LEAST_THROW_m) return null;
  const pass = { bodyWidth_m: BODY_WIDTH_m, speed_m_per_s, lampToBody_m, lampToMark_m, markWidth_m: 0 };
  const { width_m, speed_m_per_s: runs } = sweptShadow(pass);
  return { width_m, speed_m_per_s: runs };
}

/** Nearer than this a walker does not pass a lamp but walks into it. */
const LEAST_THROW_m = 0.1;

function extreme(steps: readonly WalkStep[], isMore: (a: number, b: number) => boolean): WalkExtreme {
  const { t_s, position_m, stops, lamps, dome_lx } = steps.reduce((most, step) =>
    isMore(step.stops, most.stops) ? step : most,
  );
  const [first, ...others] = lamps;
  const lamp = first && others.reduce((most, l) => (l.dome_lx > most.dome_lx ? l : most), first);
  return {
    t_s,
    position_m,
    stops,
    lamp:
      lamp && lamp.dome_lx > 0
        ? { id: lamp.id, share: lamp.dome_lx / dome_lx, distance_m: lamp.distance_m }
        : null,
  };
}

function mostBlurred(steps: readonly WalkStep[], shutter_s: number): WalkReport['mostBlurred'] {
  let most: { t_s: number; blur_px: number } | null = null;
  for (const { t_s, blur_px, framing } of steps)
    if (isFramed(framing) && blur_px !== null && blur_px > (most?.blur_px ?? -1)) most = { t_s, blur_px };
  if (!most) return null;
  return {
    ...most,
    sharp: most.blur_px > SHARP_px ? shutterForBlur(most.blur_px, shutter_s, SHARP_px) : null,
  };
}

function inSeconds({ from, to }: Span): { readonly from_s: number; readonly to_s: number } {
  return { from_s: from, to_s: to };
}
