import type { ThinLens } from '../../core/camera/thin-lens.ts';
import { GraphicsUnable, requireFloatTargets } from '../gl/float-target.ts';
import { isSoftware } from '../gl/is-software.ts';
import type { Program } from '../gl/program.ts';
import { type PixelRectangle, readFloats } from '../gl/read-back.ts';
import {
  type Accumulation,
  deleteTargets,
  errorShare,
  fewestSamples,
  mixOtherwise,
  replicated,
  sampleDone,
  startAgain,
  startSampleAgain,
  startSumsAgain,
  tracesAll,
} from './accumulation.ts';
import { changedLamps } from './changed-lamps.ts';
import { newDrawing, type Subject } from './drawing.ts';
import { type Keeping, keepingFor, type Mix, servesAlso, sumsAtWork } from './light-keeping.ts';
import { luminanceVariances, medianRelativeError, REPLICATES } from './noise.ts';
import { type Pace, paceAfter, tilePixels } from './pace.ts';
import type { PreviewScene } from './preview-scene.ts';
import type { Showing } from './showing.ts';
import { nextTile } from './tiles.ts';
import {
  accumulationsOf,
  cameraView,
  type HeldMeter,
  inTheMaking,
  meterView,
  type PicturePart,
  pictureOf,
  sameView,
  takingOver,
  type View,
} from './view.ts';

/** What a renderer is doing. */
export type Stage =
  /** Nothing to draw yet: no scene, no view, or the graphics are lost and not yet back. */
  | 'idle'
  /** The driver builds the shader. */
  | 'building'
  | 'sampling';

export interface RendererOptions {
  readonly seed?: number;
  /** Sums light by lamp, for a frame whose lamps are re-mixed; else all in one, which takes less room. */
  readonly byLamp?: boolean;
  /**
   * Draws kinds of light by programs of their own (light-parts.ts). When left out, on a card that blends floats, which draws
   * small programs faster; software draws one program faster.
   */
  readonly apart?: boolean;
}

/**
 * A frame in the making on the graphics card: linear light that gets less noisy with every sample. `renderSome` draws about
 * as much as it is told and comes back, to be called again when the browser has had its turn; nothing waits for the card but
 * what reads numbers back. A change begins the frame anew, with a few coarse samples before the first whole one. Light is kept
 * by lamp: where lamps alone are changed, that of the others stays, and a change of levels re-mixes what there is.
 */
export interface Renderer {
  /** Whether a card draws, and not the processor in its place. */
  readonly onCard: boolean;
  /** With lamps mixed as given; by the scene's own gains when left out. */
  setScene(scene: PreviewScene, mix?: Mix): void;
  /** What each lamp's light at full level is multiplied by, linear RGB, in the order of the scene's lamps. */
  setMix(mix: Mix): void;
  /** The picture of a camera so many pixels wide and high, or a part of a larger one. */
  setCamera(lens: ThinLens, width: number, height: number, part?: PicturePart): void;
  /** Instead of a picture: what meters read, a pixel each. */
  setMeters(meters: readonly HeldMeter[]): void;
  /** Draws for about `budget_ms`. @throws ShaderError, GraphicsUnable, RangeError for a scene larger than the driver takes */
  renderSome(budget_ms: number): Stage;
  /** Draws what there is so far on the canvas; false before there is anything, which leaves the canvas as it was. */
  show(showing: Showing): boolean;
  /** Whole samples a pixel so far, of the lamp that has fewest. */
  samples(): number;
  /** Counts what there is to show: grows when a coarse frame or a whole sample is done, and when lamps are mixed otherwise. */
  edition(): number;
  /** How fast this machine draws beside what each tile costs whatever its size; null before the first. */
  speed_px_per_ms(): number | null;
  /** Median over the pixels of the relative standard error of their luminance; NaN before four samples of this mix, of all lamps. */
  noise(): number;
  /** Variance of the mean luminance of each pixel, from the spread of its replicates; null while the noise is not known. */
  variances(): Float32Array | null;
  /** Mean linear RGB, three numbers a pixel, rows downward: cd/m² of a camera's frame, lx of meters; null before the first sample. */
  linear(): Float32Array | null;
  /** How long the first draw of the last program that was new took, milliseconds: some drivers build only then. */
  firstDraw_ms(): number;
  /** How long the longest other tile since the last change took, milliseconds. */
  longestTile_ms(): number;
  /** Samples left out because single precision could not hold them; their pixels are means of the others. */
  lost(): number;
  dispose(): void;
}

/** A coarse frame is all that is waited for: rather one tile than several. */
const COARSE_TILE_ms = 30;

/** A tile that the card has been asked for. */
interface Awaited {
  readonly fence: WebGLSync;
  readonly tile: PixelRectangle;
  readonly since_ms: number;
  /** The first draw of a program: the driver may have built it only now. */
  readonly first: boolean;
  readonly kind: TileKind;
}

/** Of a coarse frame or of a whole one; with all lamps traced or only those that have fewer samples. */
type TileKind = `${'coarse' | 'whole'} of ${'all' | 'some'}`;

/** @throws GraphicsUnable where the browser has no WebGL2 or cannot draw into 32-bit floats. */
export function createRenderer(
  canvas: HTMLCanvasElement | OffscreenCanvas,
  options: RendererOptions = {},
): Renderer {
  const gl = contextOf(canvas);
  const seed = (options.seed ?? 1) >>> 0;
  let scene: PreviewScene | null = null;
  let view: View | null = null;
  let mix: Mix = [];
  let keeping: Keeping | null = null;
  /** Lamps by when they were re-mixed, the last first. */
  let touched: readonly number[] = [];
  const onCard = !isSoftware(gl);
  const apart = options.apart ?? (onCard && gl.getExtension('EXT_float_blend') !== null);
  let drawing = newDrawing(gl, seed, apart);
  let drawn = new Set<Program>();
  let awaited: Awaited | null = null;
  let longest_ms = 0;
  let firstDraw_ms = 0;
  let edition = 0;
  /** Of the tiles of each kind. */
  const paces = new Map<TileKind, Pace>();

  const forget = (event: Event): void => {
    event.preventDefault();
    awaited = null;
    drawing = newDrawing(gl, seed, apart);
    drawn = new Set();
    for (const accumulation of accumulationsOf(view)) {
      accumulation.targets = null;
      startAgain(accumulation);
    }
  };
  const restore = (): void => {
    requireFloatTargets(gl);
    if (apart) gl.getExtension('EXT_float_blend');
    restart();
  };
  canvas.addEventListener('webglcontextlost', forget);
  canvas.addEventListener('webglcontextrestored', restore);

  function leaveOff(): void {
    if (awaited) gl.deleteSync(awaited.fence);
    awaited = null;
  }

  function restart(): void {
    leaveOff();
    longest_ms = 0;
    accumulationsOf(view).forEach(startAgain);
  }

  /** Deals out the sums anew; frames of another number of sums are gone. */
  function keepAnew(): void {
    const { width, height } = view?.whole ?? { width: 1, height: 1 };
    const most = options.byLamp ? (gl.getParameter(gl.MAX_DRAW_BUFFERS) as number) : 2;
    const next = keepingFor(mix, touched, width * height, most);
    if (next.sums !== keeping?.sums) for (const old of accumulationsOf(view)) deleteTargets(gl, old);
    keeping = next;
    restart();
  }

  function setMix(next: Mix): void {
    if (next.length === mix.length && next.every((factor, i) => sameFactor(factor, mix[i]!))) return;
    const changed = [...next.keys()].filter((i) => !mix[i] || !sameFactor(next[i]!, mix[i]));
    touched = [...new Set([...changed, ...touched])];
    const serves = keeping && next.length === mix.length && servesAlso(keeping, mix, next);
    mix = next;
    if (!serves) {
      keepAnew();
      return;
    }
    leaveOff();
    accumulationsOf(view).forEach(mixOtherwise);
    edition++;
  }

  function setView(next: View): void {
    if (view && sameView(view, next)) return;
    const taken = takingOver(view, next);
    const kept = accumulationsOf(taken);
    for (const old of accumulationsOf(view)) if (!kept.includes(old)) deleteTargets(gl, old);
    view = taken;
    keepAnew();
  }

  const kindOf = (into: Accumulation): TileKind =>
    `${into === view?.coarse ? 'coarse' : 'whole'} of ${tracesAll(into, atWork()) ? 'all' : 'some'}`;
  const speed = () => {
    const pace = paces.get('whole of all') ?? paces.get('coarse of all');
    return pace ? 1 / pace.perPixel_ms : null;
  };
  const subjectNow = (): Subject | null => (scene && view && keeping ? { scene, view, keeping, mix } : null);
  const atWork = () => sumsAtWork(keeping!, mix);

  /** Lamps shine otherwise from now on, in a scene that is as it was but for them. */
  function traceAgain(lamps: readonly number[]): void {
    touched = [...new Set([...lamps, ...touched])];
    const sums = lamps.map((lamp) => keeping?.sumOf[lamp] ?? 0);
    if (sums.includes(0)) {
      keepAnew();
      return;
    }
    leaveOff();
    for (const accumulation of accumulationsOf(view)) startSumsAgain(accumulation, sums);
  }

  function finishedTile({ tile, since_ms, first, kind, fence }: Awaited): boolean {
    if (gl.getSyncParameter(fence, gl.SYNC_STATUS) !== gl.SIGNALED) return false;
    if (!drawing.finish()) {
      gl.flush();
      return false;
    }
    const took_ms = performance.now() - since_ms;
    if (first) firstDraw_ms = took_ms;
    else {
      longest_ms = Math.max(longest_ms, took_ms);
      paces.set(kind, paceAfter(paces.get(kind) ?? null, tile.width * tile.height, took_ms));
    }
    gl.deleteSync(fence);
    awaited = null;
    return true;
  }

  function tileToDraw(of: View, budget_ms: number): { into: Accumulation; tile: PixelRectangle } {
    const dearest = paces.get('whole of all') ?? null;
    const pixelsOf = (into: Accumulation) => {
      const pace = paces.get(kindOf(into)) ?? null;
      if (into === of.coarse) return tilePixels(pace, COARSE_TILE_ms, dearest);
      if (pace || dearest) return tilePixels(pace, budget_ms, dearest);
      // A coarse frame says how dear pixels are, but not that the dearest do not lie side by side.
      return tilePixels(paces.get('coarse of all') ?? null, budget_ms / 2);
    };
    const tileOf = (into: Accumulation) => nextTile(into.tiles, pixelsOf(into));
    const into = inTheMaking(of, atWork());
    const tile = tileOf(into);
    if (tile) return { into, tile };
    sampleDone(into, atWork());
    edition++;
    const next = inTheMaking(of, atWork());
    return { into: next, tile: tileOf(next)! };
  }

  const replicates = (): Float32Array | null => {
    const whole = view?.whole;
    if (!whole?.targets || !keeping || !tracesAll(whole, atWork())) return null;
    if (whole.samples - whole.replicatesSince < REPLICATES) return null;
    return readFloats(gl, whole.targets.done, keeping.sums);
  };

  return {
    onCard,
    setScene(next, mixed = next.gains) {
      const changed = scene && changedLamps(scene, next);
      scene = next;
      if (changed) {
        setMix(mixed);
        if (changed.length > 0) traceAgain(changed);
        return;
      }
      if (mixed.length !== mix.length) touched = [];
      mix = mixed;
      keepAnew();
    },
    setMix,
    setCamera: (lens, width, height, part) => setView(cameraView(lens, width, height, speed(), part)),
    setMeters: (meters) => setView(meterView(meters)),
    renderSome(budget_ms) {
      const subject = subjectNow();
      if (gl.isContextLost() || !subject) return 'idle';
      if (awaited && !finishedTile(awaited)) return 'sampling';
      const { into, tile } = tileToDraw(subject.view, budget_ms);
      const since_ms = performance.now();
      const program = drawing.sample(subject, into, tile);
      if (!program) {
        // The tile was handed out for nothing.
        startSampleAgain(into);
        return 'building';
      }
      const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
      gl.flush();
      const first = !drawn.has(program);
      drawn.add(program);
      if (fence) awaited = { fence, tile, since_ms, first, kind: kindOf(into) };
      return 'sampling';
    },
    show(showing) {
      const subject = subjectNow();
      const picture = subject && pictureOf(subject.view, atWork());
      if (!picture || gl.isContextLost()) return false;
      drawing.show(subject, picture, showing);
      return true;
    },
    samples: () => (view && keeping ? fewestSamples(view.whole, atWork()) : 0),
    edition: () => edition,
    speed_px_per_ms: speed,
    noise() {
      const byReplicate = replicates();
      if (!byReplicate) return Number.NaN;
      const { whole } = view!;
      return medianRelativeError(byReplicate, replicated(whole)) * errorShare(whole, atWork());
    },
    variances() {
      const byReplicate = replicates();
      if (!byReplicate) return null;
      const { whole } = view!;
      const share = errorShare(whole, atWork()) ** 2;
      return luminanceVariances(byReplicate, replicated(whole)).map((variance) => share * variance);
    },
    linear() {
      const subject = subjectNow();
      const whole = subject?.view.whole;
      if (!whole?.targets || whole.samples === 0) return null;
      const sums = Array.from({ length: subject!.keeping.sums }, () => whole);
      const light = readFloats(gl, drawing.light(subject!, { frame: whole, sums }));
      return Float32Array.from(
        { length: (light.length / 4) * 3 },
        (_, i) => light[4 * Math.floor(i / 3) + (i % 3)]!,
      );
    },
    firstDraw_ms: () => firstDraw_ms,
    longestTile_ms: () => longest_ms,
    lost() {
      const whole = view?.whole;
      if (!whole?.targets || whole.samples === 0) return 0;
      // The first sum is at work always, for the sky shines.
      const sums = readFloats(gl, whole.targets.done);
      let lost = 0;
      for (let at = 3; at < sums.length; at += 4) lost += whole.sumSamples[0]! - sums[at]!;
      return lost;
    },
    dispose() {
      canvas.removeEventListener('webglcontextlost', forget);
      canvas.removeEventListener('webglcontextrestored', restore);
      leaveOff();
      for (const accumulation of accumulationsOf(view)) deleteTargets(gl, accumulation);
      drawing.dispose();
      scene = null;
      view = null;
    },
  };
}

function contextOf(canvas: HTMLCanvasElement | OffscreenCanvas): WebGL2RenderingContext {
  const gl = canvas.getContext('webgl2', { alpha: false, antialias: false, depth: false });
  if (!gl)
    throw new GraphicsUnable(
      'This browser offers no WebGL2 graphics here: use the frame that is computed without graphics, or another browser or driver.',
    );
  requireFloatTargets(gl as WebGL2RenderingContext);
  return gl as WebGL2RenderingContext;
}

function sameFactor(one: Mix[number], other: Mix[number]): boolean {
  return one.every((x, c) => x === other[c]);
}
