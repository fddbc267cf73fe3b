import type { ThinLens } from '../../core/camera/thin-lens.ts';
import type { Receptor } from '../../core/transport/receptor.ts';
import type { MeterPoint } from '../../core/transport/source-sample.ts';
import { drawInto, GraphicsUnable, requireFloatTargets } from '../gl/float-target.ts';
import { newFloatTexture } from '../gl/float-texture.ts';
import { bindTextures, drawAllPixels, type Program, startProgram, type UnfinishedProgram } from '../gl/program.ts';
import { type PixelRectangle, readFloats } from '../gl/read-back.ts';
import { setUniforms } from '../gl/uniforms.ts';
import { frame, meterFrame } from '../shaders/frame.ts';
import { type Accumulation, deleteAccumulation, newAccumulation, sampleDone } from './accumulation.ts';
import { luminanceVariances, medianRelativeError, REPLICATES } from './noise.ts';
import type { PreviewScene } from './preview-scene.ts';
import { learnFrom, newTiles, nextTile, type Tiles } from './tiles.ts';

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

/**
 * A frame in the making on the graphics card: linear light that gets less noisy with every sample. Nothing here waits for
 * the card but `linear` and `noise`; `renderSome` draws about as much as it is told and comes back, to be called again when
 * the browser has had its turn. Every change begins the frame anew.
 */
export interface Renderer {
  setScene(scene: PreviewScene): void;
  /** The picture of a camera, so many pixels wide and high. @throws GraphicsUnable */
  setCamera(lens: ThinLens, width: number, height: number): void;
  /** Instead of a picture: what meters read, a pixel each. @throws GraphicsUnable */
  setMeters(meters: readonly { readonly point: MeterPoint; readonly receptor: Receptor }[]): void;
  /** Draws for about `budget_ms`, less on the first calls. @throws ShaderError, GraphicsUnable */
  renderSome(budget_ms: number): Stage;
  /** Whole samples a pixel so far. */
  samples(): number;
  /** Median over the pixels of the relative standard error of their luminance; NaN before there is one. */
  noise(): number;
  /** Variance of the mean luminance of each pixel, from the spread of its replicates. Null before the first four samples. */
  variances(): Float32Array | null;
  /** Mean linear RGB, three numbers a pixel, rows downward: cd/m² of a camera's frame, lx of meters. Null before the first sample. */
  linear(): Float32Array | null;
  /** How long the longest tile since the last change took, milliseconds. */
  longestTile_ms(): number;
  /** Samples left out because single precision could not hold them; their pixels are means of the others. */
  lost(): number;
  dispose(): void;
}

interface View {
  readonly width: number;
  readonly height: number;
  readonly lens: ThinLens | null;
  /** Two texels a meter. */
  readonly meters: Float32Array | null;
}

/** What stands on the card: gone when the context is. */
interface OnCard {
  readonly programs: Map<string, UnfinishedProgram | Program>;
  textures: Record<string, WebGLTexture> | null;
  metersTexture: WebGLTexture | null;
  accumulation: Accumulation | null;
}

/** A tile that the card has been asked for. */
interface Awaited {
  readonly fence: WebGLSync;
  readonly tile: PixelRectangle;
  readonly since_ms: number;
}

/** @throws GraphicsUnable where the browser has no WebGL2 or cannot draw into 32-bit floats. */
export function createRenderer(canvas: HTMLCanvasElement | OffscreenCanvas, options: RendererOptions = {}): Renderer {
  const gl = canvas.getContext('webgl2', { alpha: false, antialias: false, depth: false }) as WebGL2RenderingContext | null;
  if (!gl)
    throw new GraphicsUnable(
      'This browser offers no WebGL2 graphics here: use the frame that is computed without graphics, or another browser or driver.',
    );
  requireFloatTargets(gl);

  const seed = options.seed ?? 1;
  let scene: PreviewScene | null = null;
  let view: View | null = null;
  let card = emptyCard();
  let tiles: Tiles | null = null;
  let awaited: Awaited | null = null;
  let longest_ms = 0;

  const lose = (event: Event): void => {
    event.preventDefault();
    awaited = null;
    card = emptyCard();
  };
  const restore = (): void => {
    requireFloatTargets(gl);
    restart();
  };
  canvas.addEventListener('webglcontextlost', lose);
  canvas.addEventListener('webglcontextrestored', restore);

  function restart(): void {
    if (awaited) gl!.deleteSync(awaited.fence);
    awaited = null;
    longest_ms = 0;
    if (card.accumulation) card.accumulation.samples = 0;
    if (view) tiles = newTiles(view.width, view.height, tiles?.pixels);
  }

  function setView(next: View): void {
    if (view && card.accumulation && (view.width !== next.width || view.height !== next.height)) {
      deleteAccumulation(gl!, card.accumulation);
      card.accumulation = null;
    }
    if (card.metersTexture) gl!.deleteTexture(card.metersTexture);
    card.metersTexture = null;
    view = next;
    restart();
  }

  /** The program for the view of the scene, once the driver has built it. */
  function programFor(of: PreviewScene, now: View): Program | null {
    const key = JSON.stringify([now.meters !== null, of.features]);
    const known = card.programs.get(key) ?? startProgram(gl!, (now.meters ? meterFrame : frame)(of.features));
    card.programs.set(key, known);
    if (!('finish' in known)) return known;
    if (!known.isBuilt()) return null;
    const built = known.finish();
    card.programs.set(key, built);
    return built;
  }

  function sceneTextures(of: PreviewScene): Record<string, WebGLTexture> {
    card.textures ??= Object.fromEntries(
      Object.entries(of.textures).map(([name, texels]) => [name, newFloatTexture(gl!, texels)]),
    );
    return card.textures;
  }

  function draw(program: Program, of: PreviewScene, now: View, tile: PixelRectangle): void {
    const accumulation = (card.accumulation ??= newAccumulation(gl!, now.width, now.height));
    const textures = {
      ...sceneTextures(of),
      sumsBefore: accumulation.done.textures[0]!,
      replicatesBefore: accumulation.done.textures[1]!,
    };
    if (now.meters)
      card.metersTexture ??= newFloatTexture(gl!, { width: 2 * now.width, height: 1, data: now.meters });
    gl!.useProgram(program.handle);
    bindTextures(gl!, program, card.metersTexture ? { ...textures, meters: card.metersTexture } : textures);
    setUniforms(gl!, program, of.uniforms);
    setUniforms(gl!, program, uniformsOf(now, seed, accumulation.samples));
    drawInto(gl!, accumulation.making);
    gl!.enable(gl!.SCISSOR_TEST);
    gl!.scissor(tile.x, tile.y, tile.width, tile.height);
    drawAllPixels(gl!);
    gl!.disable(gl!.SCISSOR_TEST);
  }

  return {
    setScene(next) {
      scene = next;
      for (const texture of Object.values(card.textures ?? {})) gl.deleteTexture(texture);
      card.textures = null;
      restart();
    },
    setCamera(lens, width, height) {
      setView({ width, height, lens, meters: null });
    },
    setMeters(meters) {
      const texels = meters.flatMap(({ point: { position_m, facing }, receptor }) => [
        ...position_m,
        receptor === 'dome' ? 1 : 0,
        ...facing,
        0,
      ]);
      const data = Float32Array.from(texels);
      setView({ width: meters.length, height: 1, lens: null, meters: data });
    },
    renderSome(budget_ms) {
      if (gl.isContextLost() || !scene || !view || !tiles) return 'idle';
      const program = programFor(scene, view);
      if (!program) return 'building';
      if (awaited) {
        if (gl.getSyncParameter(awaited.fence, gl.SYNC_STATUS) !== gl.SIGNALED) return 'sampling';
        const took_ms = performance.now() - awaited.since_ms;
        longest_ms = Math.max(longest_ms, took_ms);
        learnFrom(tiles, awaited.tile, took_ms, budget_ms);
        gl.deleteSync(awaited.fence);
        awaited = null;
      }
      let tile = nextTile(tiles);
      if (!tile) {
        if (card.accumulation) sampleDone(card.accumulation);
        tile = nextTile(tiles)!;
      }
      const since_ms = performance.now();
      draw(program, scene, view, tile);
      const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
      gl.flush();
      if (fence) awaited = { fence, tile, since_ms };
      return 'sampling';
    },
    longestTile_ms: () => longest_ms,
    samples: () => card.accumulation?.samples ?? 0,
    noise() {
      if (!card.accumulation) return Number.NaN;
      return medianRelativeError(readFloats(gl, card.accumulation.done, 1), card.accumulation.samples);
    },
    variances() {
      if (!card.accumulation || card.accumulation.samples < REPLICATES) return null;
      return luminanceVariances(readFloats(gl, card.accumulation.done, 1), card.accumulation.samples);
    },
    linear() {
      if (!card.accumulation || card.accumulation.samples === 0) return null;
      const sums = readFloats(gl, card.accumulation.done);
      const pixels = sums.length / 4;
      const mean = new Float32Array(3 * pixels);
      for (let i = 0; i < pixels; i++) {
        const count = Math.max(1, sums[4 * i + 3]!);
        for (let c = 0; c < 3; c++) mean[3 * i + c] = sums[4 * i + c]! / count;
      }
      return mean;
    },
    lost() {
      if (!card.accumulation) return 0;
      const { done, samples } = card.accumulation;
      const sums = readFloats(gl, done);
      let lost = 0;
      for (let at = 3; at < sums.length; at += 4) lost += samples - sums[at]!;
      return lost;
    },
    dispose() {
      canvas.removeEventListener('webglcontextlost', lose);
      canvas.removeEventListener('webglcontextrestored', restore);
      if (awaited) gl.deleteSync(awaited.fence);
      awaited = null;
      if (card.accumulation) deleteAccumulation(gl, card.accumulation);
      for (const texture of Object.values(card.textures ?? {})) gl.deleteTexture(texture);
      if (card.metersTexture) gl.deleteTexture(card.metersTexture);
      for (const program of card.programs.values()) {
        if ('finish' in program) program.discard();
        else gl.deleteProgram(program.handle);
      }
      card = emptyCard();
      scene = null;
    },
  };
}

function emptyCard(): OnCard {
  return { programs: new Map(), textures: null, metersTexture: null, accumulation: null };
}

function uniformsOf(view: View, seed: number, samplesBefore: number): Record<string, readonly number[]> {
  const all = { frameSize: [view.width, view.height], seed: [seed >>> 0], samplesBefore: [samplesBefore] };
  if (!view.lens) return all;
  const { position_m, forward, right, up, halfWidth, halfHeight, pupil_m, focus_m } = view.lens;
  return {
    ...all,
    lensPosition: position_m,
    lensForward: forward,
    lensRight: right,
    lensUp: up,
    lensNumbers: [halfWidth, halfHeight, pupil_m, focus_m],
  };
}
