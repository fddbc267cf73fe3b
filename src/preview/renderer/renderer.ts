import type { ThinLens } from '../../core/camera/thin-lens.ts';
import type { Matrix3 } from '../../core/picture/matrix3.ts';
import type { ToneRange } from '../../core/picture/tone-curve.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import type { MeterPoint } from '../../core/transport/source-sample.ts';
import { drawInto, GraphicsUnable, requireFloatTargets } from '../gl/float-target.ts';
import { newFloatTexture } from '../gl/float-texture.ts';
import {
  bindTextures,
  drawAllPixels,
  type Program,
  startProgram,
  type UnfinishedProgram,
} from '../gl/program.ts';
import { type PixelRectangle, readFloats } from '../gl/read-back.ts';
import { setUniforms } from '../gl/uniforms.ts';
import type { Chunk } from '../shaders/chunk.ts';
import { frame, meterFrame } from '../shaders/frame.ts';
import { show } from '../shaders/show.ts';
import {
  type Accumulation,
  deleteTargets,
  newAccumulation,
  sampleDone,
  startAgain,
  targetsOf,
} from './accumulation.ts';
import { luminanceVariances, medianRelativeError, REPLICATES } from './noise.ts';
import type { PreviewScene } from './preview-scene.ts';
import { takeUp } from './take-up.ts';
import { learnFrom, nextTile, type Tiles } from './tiles.ts';

/** What a renderer is doing. */
export type Stage =
  /** Nothing to draw yet: no scene, no view, or the graphics are lost and not yet back. */
  | 'idle'
  /** The driver builds the shader. */
  | 'building'
  | 'sampling';

export interface RendererOptions {
  readonly seed?: number;
}

/** How light becomes a picture: by the camera's exposure and white balance, and nothing else. */
export interface Showing {
  readonly zero_cd_m2: number;
  readonly whiteBalance: Matrix3;
  readonly range: ToneRange;
}

/**
 * A frame in the making on the graphics card: linear light that gets less noisy with every sample. `renderSome` draws about
 * as much as it is told and comes back, to be called again when the browser has had its turn; nothing waits for the card but
 * what reads numbers back. Every change begins the frame anew, with one coarse sample before the first whole one.
 */
export interface Renderer {
  setScene(scene: PreviewScene): void;
  /** The picture of a camera, so many pixels wide and high. */
  setCamera(lens: ThinLens, width: number, height: number): void;
  /** Instead of a picture: what meters read, a pixel each. */
  setMeters(meters: readonly { readonly point: MeterPoint; readonly receptor: Receptor }[]): void;
  /** Draws for about `budget_ms`. @throws ShaderError, GraphicsUnable, RangeError for a scene larger than the driver takes */
  renderSome(budget_ms: number): Stage;
  /** Draws what there is so far on the canvas; false before there is anything, which leaves the canvas as it was. */
  show(showing: Showing): boolean;
  /** Whole samples a pixel so far. */
  samples(): number;
  /** Median over the pixels of the relative standard error of their luminance; NaN before four samples. */
  noise(): number;
  /** Variance of the mean luminance of each pixel, from the spread of its replicates; null before four samples. */
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

interface View {
  readonly lens: ThinLens | null;
  /** Two texels a meter. */
  readonly meters: Float32Array | null;
  /** Null where the frame is so small that it is soon there itself. */
  readonly coarse: Accumulation | null;
  readonly whole: Accumulation;
}

/** What stands on the card beside accumulations: gone when the context is. */
interface OnCard {
  readonly programs: Map<string, UnfinishedProgram | Program>;
  /** Programs that have drawn something. */
  readonly drawn: Set<Program>;
  scene: Record<string, WebGLTexture> | null;
  meters: WebGLTexture | null;
}

/** A tile that the card has been asked for. */
interface Awaited {
  readonly fence: WebGLSync;
  readonly tile: PixelRectangle;
  readonly of: Tiles;
  readonly since_ms: number;
  /** The first draw of a program: the driver may have built it only now. */
  readonly first: boolean;
}

/** A coarse frame has this many times fewer pixels across and down, and is not made for frames narrower than that many pixels. */
const COARSENESS = 4;
const LEAST_FOR_COARSE_px = 128;

/** @throws GraphicsUnable where the browser has no WebGL2 or cannot draw into 32-bit floats. */
export function createRenderer(
  canvas: HTMLCanvasElement | OffscreenCanvas,
  options: RendererOptions = {},
): Renderer {
  const gl = contextOf(canvas);
  const seed = (options.seed ?? 1) >>> 0;
  let scene: PreviewScene | null = null;
  let view: View | null = null;
  let card = emptyCard();
  let awaited: Awaited | null = null;
  let longest_ms = 0;
  let firstDraw_ms = 0;

  const accumulations = (): Accumulation[] =>
    view ? [view.whole, ...(view.coarse ? [view.coarse] : [])] : [];
  const forget = (event: Event): void => {
    event.preventDefault();
    awaited = null;
    card = emptyCard();
    for (const accumulation of accumulations()) {
      accumulation.targets = null;
      startAgain(accumulation);
    }
  };
  const restore = (): void => {
    requireFloatTargets(gl);
    restart();
  };
  canvas.addEventListener('webglcontextlost', forget);
  canvas.addEventListener('webglcontextrestored', restore);

  function restart(): void {
    if (awaited) gl.deleteSync(awaited.fence);
    awaited = null;
    longest_ms = 0;
    accumulations().forEach(startAgain);
  }

  function setView(lens: ThinLens | null, meters: Float32Array | null, width: number, height: number): void {
    const same =
      view &&
      view.whole.width === width &&
      view.whole.height === height &&
      (view.lens === null) === (lens === null);
    if (!same) for (const accumulation of accumulations()) deleteTargets(gl, accumulation);
    if (card.meters) gl.deleteTexture(card.meters);
    card.meters = null;
    const wantsCoarse = lens !== null && width >= LEAST_FOR_COARSE_px;
    const coarse = () => newAccumulation(Math.ceil(width / COARSENESS), Math.ceil(height / COARSENESS));
    view = same
      ? { ...view!, lens, meters }
      : { lens, meters, whole: newAccumulation(width, height), coarse: wantsCoarse ? coarse() : null };
    restart();
  }

  /** A program once the driver has built it. */
  function programOf(key: string, chunk: () => Chunk): Program | null {
    const known = card.programs.get(key) ?? startProgram(gl, chunk());
    card.programs.set(key, known);
    if (!('finish' in known)) return known;
    if (!known.isBuilt()) return null;
    const built = known.finish();
    card.programs.set(key, built);
    return built;
  }

  function sceneTextures(of: PreviewScene): Record<string, WebGLTexture> {
    card.scene ??= Object.fromEntries(
      Object.entries(of.textures).map(([name, texels]) => [name, newFloatTexture(gl, texels)]),
    );
    return card.scene;
  }

  function draw(
    program: Program,
    of: PreviewScene,
    now: View,
    into: Accumulation,
    tile: PixelRectangle,
  ): void {
    const { done, making } = targetsOf(gl, into);
    const [sumsBefore, replicatesBefore] = done.textures;
    const textures = { ...sceneTextures(of), sumsBefore: sumsBefore!, replicatesBefore: replicatesBefore! };
    if (now.meters)
      card.meters ??= newFloatTexture(gl, { width: 2 * into.width, height: 1, data: now.meters });
    takeUp(gl, program);
    bindTextures(gl, program, card.meters ? { ...textures, meters: card.meters } : textures);
    setUniforms(gl, program, of.uniforms);
    setUniforms(gl, program, { ...sampleUniforms(into, seed), ...(now.lens ? lensUniforms(now.lens) : {}) });
    drawInto(gl, making);
    gl.enable(gl.SCISSOR_TEST);
    gl.scissor(tile.x, tile.y, tile.width, tile.height);
    drawAllPixels(gl);
    gl.disable(gl.SCISSOR_TEST);
  }

  const readBack = (output: number, least: number): Float32Array | null =>
    view?.whole.targets && view.whole.samples >= least
      ? readFloats(gl, view.whole.targets.done, output)
      : null;

  return {
    setScene(next) {
      scene = next;
      for (const texture of Object.values(card.scene ?? {})) gl.deleteTexture(texture);
      card.scene = null;
      restart();
    },
    setCamera(lens, width, height) {
      setView(lens, null, width, height);
    },
    setMeters(meters) {
      const texels = meters.flatMap(({ point: { position_m, facing }, receptor }) => [
        ...[...position_m, receptor === 'dome' ? 1 : 0],
        ...[...facing, 0],
      ]);
      setView(null, Float32Array.from(texels), meters.length, 1);
    },
    renderSome(budget_ms) {
      if (gl.isContextLost() || !scene || !view) return 'idle';
      const { features } = scene;
      const kind = view.meters ? meterFrame : frame;
      const program = programOf(JSON.stringify([kind.name, features]), () => kind(features));
      if (!program) return 'building';
      if (awaited) {
        if (gl.getSyncParameter(awaited.fence, gl.SYNC_STATUS) !== gl.SIGNALED) return 'sampling';
        const took_ms = performance.now() - awaited.since_ms;
        if (awaited.first) firstDraw_ms = took_ms;
        else {
          longest_ms = Math.max(longest_ms, took_ms);
          learnFrom(awaited.of, awaited.tile, took_ms, budget_ms);
        }
        gl.deleteSync(awaited.fence);
        awaited = null;
      }
      let into = inTheMaking(view);
      let tile = nextTile(into.tiles);
      if (!tile) {
        sampleDone(into);
        into = inTheMaking(view);
        tile = nextTile(into.tiles)!;
      }
      const since_ms = performance.now();
      draw(program, scene, view, into, tile);
      const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
      gl.flush();
      const first = !card.drawn.has(program);
      card.drawn.add(program);
      if (fence) awaited = { fence, tile, of: into.tiles, since_ms, first };
      return 'sampling';
    },
    show(showing) {
      const ready = accumulations().find(({ samples, targets }) => samples > 0 && targets);
      const program = ready && !gl.isContextLost() && programOf('show', () => show);
      if (!ready?.targets || !program) return false;
      gl.bindFramebuffer(gl.FRAMEBUFFER, null);
      gl.viewport(0, 0, gl.drawingBufferWidth, gl.drawingBufferHeight);
      takeUp(gl, program);
      bindTextures(gl, program, { sums: ready.targets.done.textures[0]! });
      setUniforms(gl, program, showUniforms(ready, [gl.drawingBufferWidth, gl.drawingBufferHeight], showing));
      drawAllPixels(gl);
      return true;
    },
    samples: () => view?.whole.samples ?? 0,
    noise() {
      const byReplicate = readBack(1, REPLICATES);
      return byReplicate ? medianRelativeError(byReplicate, view!.whole.samples) : Number.NaN;
    },
    variances() {
      const byReplicate = readBack(1, REPLICATES);
      return byReplicate && luminanceVariances(byReplicate, view!.whole.samples);
    },
    linear() {
      const sums = readBack(0, 1);
      return sums && Float32Array.from({ length: (sums.length / 4) * 3 }, (_, i) => meanAt(sums, i));
    },
    firstDraw_ms: () => firstDraw_ms,
    longestTile_ms: () => longest_ms,
    lost() {
      const sums = readBack(0, 1);
      let lost = 0;
      for (let at = 3; at < (sums?.length ?? 0); at += 4) lost += view!.whole.samples - sums![at]!;
      return lost;
    },
    dispose() {
      canvas.removeEventListener('webglcontextlost', forget);
      canvas.removeEventListener('webglcontextrestored', restore);
      if (awaited) gl.deleteSync(awaited.fence);
      awaited = null;
      for (const accumulation of accumulations()) deleteTargets(gl, accumulation);
      for (const texture of Object.values(card.scene ?? {})) gl.deleteTexture(texture);
      if (card.meters) gl.deleteTexture(card.meters);
      for (const program of card.programs.values()) {
        if ('finish' in program) program.discard();
        else gl.deleteProgram(program.handle);
      }
      card = emptyCard();
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

function emptyCard(): OnCard {
  return { programs: new Map(), drawn: new Set(), scene: null, meters: null };
}

/** What the next tile belongs to: after a change, a coarse frame first. */
function inTheMaking({ coarse, whole }: View): Accumulation {
  return coarse && coarse.samples === 0 ? coarse : whole;
}

/** The i-th number of the mean linear RGB of all pixels. */
function meanAt(sums: Float32Array, i: number): number {
  const pixel = Math.floor(i / 3);
  return sums[4 * pixel + (i % 3)]! / Math.max(1, sums[4 * pixel + 3]!);
}

type Numbers = Record<string, readonly number[]>;

function sampleUniforms({ width, height, samples }: Accumulation, seed: number): Numbers {
  return { frameSize: [width, height], seed: [seed], samplesBefore: [samples] };
}

function lensUniforms(lens: ThinLens): Numbers {
  const { position_m, forward, right, up, halfWidth, halfHeight, pupil_m, focus_m } = lens;
  return {
    lensPosition: position_m,
    lensForward: forward,
    lensRight: right,
    lensUp: up,
    lensNumbers: [halfWidth, halfHeight, pupil_m, focus_m],
  };
}

function showUniforms(
  { width, height }: Accumulation,
  canvasSize: readonly number[],
  showing: Showing,
): Numbers {
  const { zero_cd_m2, whiteBalance, range } = showing;
  const [balanceRed, balanceGreen, balanceBlue] = whiteBalance;
  return {
    frameSize: [width, height],
    canvasSize,
    zero_cd_m2: [zero_cd_m2],
    balanceRed,
    balanceGreen,
    balanceBlue,
    toneStops: [range.white_stops, range.floor_stops],
  };
}
